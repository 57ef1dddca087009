"""Wire the concrete store, engine, transport and settings together; nowhere else."""
