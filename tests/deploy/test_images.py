"""One release, under one name, in every file that names it."""

import re

from footvalve import __version__

from .containerfile import instructions
from .tools import CONTAINER, KUBERNETES, yaml_of

IMAGE = f"footvalve:{__version__}"


def test_every_file_names_the_same_release():
    deployment = yaml_of(KUBERNETES / "base/deployment.yaml")
    assert deployment["spec"]["template"]["spec"]["containers"][0]["image"] == IMAGE
    assert yaml_of(CONTAINER / "compose.yaml")["services"]["footvalve"]["image"] == IMAGE
    (version,) = (rest for word, rest in instructions() if word == "ARG" and rest.startswith("VERSION="))
    assert version == f"VERSION={__version__}"


def test_overlays_take_the_image_of_the_base():
    for overlay in (KUBERNETES / "overlays").iterdir():
        (image,) = yaml_of(overlay / "kustomization.yaml")["images"]
        assert image["name"] == "footvalve"
        assert re.fullmatch(r"[a-z.]+\.example/footvalve", image["newName"])
        assert image["newTag"] == __version__
