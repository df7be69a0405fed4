"""Small drawings made on the spot: grids of square tesserae as SVG."""

from collections.abc import Callable

BLUE, YELLOW = "#2a5caa", "#e8c93a"


def grid_svg(
    columns: int,
    rows: int,
    *,
    pitch_mm: float = 7.0,
    joint_mm: float = 0.8,
    clear: Callable[[int, int], bool] = lambda column, row: False,
    colour: Callable[[int, int], str] = lambda column, row: BLUE,
    page_mm: tuple[float, float] | None = None,
) -> bytes:
    """Return a grid of squares, `pitch_mm` apart with joints of `joint_mm`; ids are c<column>r<row>."""
    width, height = page_mm or (columns * pitch_mm, rows * pitch_mm)
    side = pitch_mm - joint_mm
    shapes = []
    for row in range(rows):
        for column in range(columns):
            x, y = column * pitch_mm + joint_mm / 2, row * pitch_mm + joint_mm / 2
            glass = ' data-glass="clear"' if clear(column, row) else ""
            shapes.append(
                f'<rect id="c{column}r{row}" x="{x:.3f}" y="{y:.3f}" width="{side:.3f}" height="{side:.3f}" '
                f'fill="{colour(column, row)}"{glass}/>'
            )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}">{"".join(shapes)}</svg>'
    ).encode()
