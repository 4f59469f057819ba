"""What a cook is: menu, plan, events, engine, alarms, view. Values in, values out."""
