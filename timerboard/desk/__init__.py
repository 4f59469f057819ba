"""The one door: command -> decide -> journal -> apply -> tell."""
