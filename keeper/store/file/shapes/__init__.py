"""The statements of the migrations, one module a shape."""
