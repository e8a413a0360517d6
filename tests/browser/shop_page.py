"""The page of a shop, and what it tells of an invented pump."""

ROTARY = (
    'pump-name="the rotary booster" rated-lift="22 ft" flow="3 gal/min" '
    'pump-points="20 psi 3.4 gal/min, 70 psi 2.4 gal/min" switch="20 psi, 40 psi"'
)
"""The attributes of a pump with everything that a site sheet needs."""


def check_element(attributes: str = ROTARY, inside: str = "") -> str:
    """The element of a suction check, with what the shop itself has to say between its tags."""
    return f"<footvalve-suction-check {attributes}>{inside}</footvalve-suction-check>"


def shop_page(html: str, script: str, lang: str = "en") -> str:
    """A page around some HTML that loads the script."""
    return f"""<!doctype html>
<html lang="{lang}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>Shop</title>
<link rel="icon" href="data:,">
<script type="module" src="{script}"></script>
</head>
<body><main><h1>Pump</h1>{html}</main></body>
</html>"""
