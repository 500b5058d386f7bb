"""Forms, answers, pictures and replies, for the site's build, the browser and the command line."""
