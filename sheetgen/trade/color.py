"""A screen swatch for a measured color: CIE L*a*b* to an sRGB hex code.

Used to paint the color cells; color differences are not computed here, the workbook's own live formula does
that.

L*a*b* is taken under illuminant D65. Textile readings are usually made for the 10 degree observer and screens
are defined for the 2 degree observer; the difference is not corrected, so a neutral stays neutral and a
swatch is a picture, never a standard. Source of the sRGB matrix and curve: IEC 61966-2-1; of L*a*b*: ISO/CIE
11664-4.
"""

from typing import Final

_WHITE: Final = (0.3127 / 0.3290, 1.0, (1 - 0.3127 - 0.3290) / 0.3290)  # D65 chromaticity of IEC 61966-2-1
_TO_LINEAR_RGB: Final = (
    (3.2409699419, -1.5373831776, -0.4986107603),
    (-0.9692436363, 1.8759675015, 0.0415550574),
    (0.0556300797, -0.2039769589, 1.0569715142),
)
_LINEAR_UNTIL: Final = 0.0031308
_KNEE: Final = 6 / 29  # where the cube root of L*a*b* turns into a straight line


def lab_to_hex(L: float, a: float, b: float) -> str:  # noqa: N803 - the trade writes L*, a*, b*
    """The sRGB color of an L*a*b* reading (D65) as 'RRGGBB', upper case, without a leading '#'.

    A color that a screen cannot show is cut off at each channel's end. Error: at most one step of 255 in a
    channel.
    """
    middle = (L + 16) / 116
    xyz = [
        white * _uncube(part) for white, part in zip(_WHITE, (middle + a / 500, middle, middle - b / 200), strict=True)
    ]
    linear = [sum(weight * part for weight, part in zip(row, xyz, strict=True)) for row in _TO_LINEAR_RGB]
    return "".join(f"{_channel(value):02X}" for value in linear)


def _uncube(value: float) -> float:
    """The inverse of the lightness curve of L*a*b*."""
    if value > _KNEE:
        return float(value**3)
    return 3 * _KNEE**2 * (value - 4 / 29)


def _channel(linear: float) -> int:
    """A linear channel from 0 to 1 as a step from 0 to 255 on the sRGB curve."""
    held = min(1.0, max(0.0, linear))
    curved = 12.92 * held if held <= _LINEAR_UNTIL else 1.055 * held ** (1 / 2.4) - 0.055
    return round(255 * curved)
