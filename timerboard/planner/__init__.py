"""When things should happen: a Problem in, a Plan or a NoPlan out. The only place that knows the solver."""
