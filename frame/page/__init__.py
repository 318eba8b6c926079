"""One page that holds a whole answer: a single HTML file without anything from outside.

In comes the text of a rack file; `html_page` gathers every answer and `page.html.jinja` sets it.
Open first: `page`. Whatever comes from a file is text, never markup: the template escapes it.
"""
