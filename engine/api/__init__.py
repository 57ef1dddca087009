"""Public questions and results of the engine, carrying pint quantities."""
