"""Pictures computed from scenes: plan views and axonometric views."""
