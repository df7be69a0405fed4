"""Parts of the Finish screen: weight and hanging, cost and hours, papers."""
