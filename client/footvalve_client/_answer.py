"""What all Structs of an answer have in common."""

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from rich.console import RenderableType

    from footvalve_client._rows import Row


class AnswerPart(Struct, frozen=True, omit_defaults=True, repr_omit_defaults=True):
    """A part of an answer. What the service left out is None; what it added since is left aside."""

    def to_dicts(self, path: str = "") -> "list[Row]":
        """Flat rows for a data frame: one of this part itself, or one for each member of a list in it.

        A path such as "profile" names the list, or another part; dots lead on, as "suction_feasibility.profile"
        of a plan. Of a list in a list, as "rows.sizes" of the pipes, each row also tells of the outer list's member.

        A column is named after its field, a quantity's with the unit behind it: `margin_ft`, `flow_gal_per_min`; so
        that values in different units never share one. An uncertainty has a column of its own behind it,
        `margin_ft_uncertainty`. Parts of parts are joined, `priming_line_volume_gal`; what the service left out has no
        column, and lists in a row are left aside. `footvalve_client.to_dicts` does the same for many answers.

        Raises ValueError for a path to nothing.
        """
        from footvalve_client._rows import rows  # noqa: PLC0415  # not needed for the answer itself

        return rows(self, path)

    def _repr_html_(self) -> str:
        """As a notebook shows it."""
        from footvalve_client._notebook import page  # noqa: PLC0415

        return page(self)

    def __rich__(self) -> "RenderableType":
        """As rich prints it."""
        from footvalve_client._terminal import printed  # noqa: PLC0415

        return printed(self)
