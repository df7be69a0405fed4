"""A label read out on the tablet: the questions, and a view for each kind of answer."""
