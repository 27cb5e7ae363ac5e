"""The marks that drawings add to an outline: each a small shape, set once or scattered over the middle."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

_SCATTERED = ((40, 40), (58, 34), (66, 52), (42, 58), (56, 66), (50, 48))
_MANY = (*_SCATTERED, (46, 30), (34, 50), (60, 44), (50, 74), (36, 66), (64, 60))
_FEW = ((42, 44), (60, 56), (48, 66))
_ON_BARK = ((20, 46), (30, 54), (40, 45), (46, 55), (54, 46), (62, 54), (70, 44), (78, 53))
_ON_TWIG = ((49, 20), (50, 34), (48, 48), (50, 60), (47, 74), (38, 53), (61, 36))
_SIDE = ((80, 22), (88, 34), (76, 38))


def _at(places: Sequence[tuple[int, int]], shape: str) -> str:
    return "".join(f'<g transform="translate({x} {y})">{shape}</g>' for x, y in places)


def _shaded(outline: str, darkness: float) -> str:
    return f'<path d="{outline}" fill="currentColor" fill-opacity="{darkness}"/>'


_FULL = 'fill="currentColor"'
_ROUND = f'<circle r="4" {_FULL}/>'
_DOT = f'<circle r="1.6" {_FULL}/>'
_BUG = f'<ellipse rx="4" ry="2.6" {_FULL}/><path d="M-3 -3L-5 -6M3 -3L5 -6M-3 3L-5 6M3 3L5 6"/>'
_DROP = '<path d="M0 -7C5 0 5 6 0 6C-5 6 -5 0 0 -7"/>'
_WORM = '<path d="M-9 3C-6 -5 -2 -5 0 1C2 6 6 6 9 -2" stroke-width="5"/>'
_FLAKE = '<path d="M0 -9V9M-8 -5L8 5M-8 5L8 -5"/>'

MARKS: Mapping[str, str] = {
    "spots": _at(_SCATTERED, _ROUND),
    "rings": _at(_FEW, f'<circle r="7"/><circle r="3" {_FULL}/>'),
    "halos": _at(_SCATTERED, f'<circle r="5" stroke-dasharray="2 2"/>{_DOT}'),
    "target": _at(((54, 56),), f'<circle r="20"/><circle r="13"/><circle r="6" {_FULL}/>'),
    "angles": _at(_SCATTERED, f'<path d="M-4 -3L2 -5L5 1L0 5L-4 2Z" {_FULL}/>'),
    "specks": _at(_MANY, _DOT),
    "holes": _at(_SCATTERED, '<circle r="4.5" fill="white"/>'),
    "pits": _at(_SCATTERED, '<path d="M-5 -2C-4 4 4 4 5 -2" stroke-width="2.5"/>'),
    "puckers": _at(_SCATTERED, '<path d="M-7 2C-6 -6 6 -6 7 2M-4 3C-3 -1 3 -1 4 3"/>'),
    "blisters": _at(_SCATTERED, '<circle r="4"/>'),
    "powder": _at(_MANY, '<path d="M-3 0H3M0 -3V3" stroke-width="1"/>'),
    "film": '<path d="M32 66L60 34M36 74L68 40M44 80L72 50M30 54L50 30" stroke-dasharray="3 3"/>',
    "soot": (
        _shaded('M30 50C34 40 42 48 46 42C54 34 60 44 56 50C62 58 50 64 44 60C36 66 28 58 30 50Z', 0.6)
        + _shaded('M54 64C58 58 68 60 68 67C66 75 54 75 54 64Z', 0.6)
    ),
    "patches": (
        _shaded('M34 44C40 36 46 44 44 50C38 56 32 52 34 44Z', 0.3)
        + _shaded('M56 34C64 36 64 46 58 48C52 44 52 36 56 34Z', 0.3)
        + '<path d="M34 64L40 58L46 66L52 58L58 66L66 58"/><circle cx="46" cy="74" r="4"/>'
    ),
    "bands": '<path d="M30 34C40 30 50 38 62 30M28 50C42 44 52 54 70 46M32 68C42 62 56 70 66 62"/>',
    "edges": '<path d="M27 60C26 42 36 24 50 10C64 24 74 42 73 60" stroke-width="6"/>',
    "edge_band": '<path d="M32 60C31 46 40 30 50 18C60 30 69 46 68 60" stroke-width="4" stroke-dasharray="5 2"/>',
    "dark": _shaded('M34 70C28 50 36 32 50 20C64 32 72 50 66 70Z', 0.75),
    "black_core": _shaded('M34 56C34 38 44 34 50 34C58 34 66 40 66 56C66 70 58 76 50 76C42 76 34 70 34 56Z', 0.75),
    "pale": '<path d="M38 58L46 34M46 66L56 34M56 66L64 44" stroke-dasharray="1 4"/>',
    "veins": '<path d="M50 86V18M50 70L34 58M50 70L66 58M50 54L34 42M50 54L66 42" stroke-width="4"/>',
    "web": (
        '<path d="M20 20L80 80M80 20L20 80M50 10V90M32 32C44 38 56 38 68 32M26 50C42 56 58 56 74 50M32 68'
        'C44 74 56 74 68 68" stroke-width="1"/>'
    ),
    "bugs": _at(_FEW, _BUG),
    "bugs_many": _at(_SCATTERED, _BUG),
    "flies": _at(_SIDE, f'{_BUG}<path d="M0 -3L-6 -9M0 -3L6 -9"/>'),
    "wool": _at(_FEW, '<path d="M-7 3C-11 -3 -4 -9 0 -5C4 -10 11 -3 7 3C3 8 -3 8 -7 3"/>'),
    "scales": _at(_SCATTERED, f'<path d="M-4 2A4 4 0 0 1 4 2Z" {_FULL}/>'),
    "drops": _at(_FEW, _DROP),
    "gum": _shaded('M52 46C60 46 62 56 58 66C64 76 48 78 50 66C44 58 46 46 52 46Z', 0.5),
    "beads": _at(_FEW, '<circle r="5"/><path d="M-2 -1A3 3 0 0 1 1 -3"/>'),
    "worm": _at(((54, 54),), _WORM),
    "slugs": _at(_FEW, f'<path d="M-8 -1C-8 -7 2 -6 9 3C2 3 -6 5 -8 -1Z" {_FULL}/>'),
    "worms": _at(_FEW, _WORM),
    "c_grub": '<path d="M62 44C46 38 40 60 56 66" stroke-width="7"/>',
    "tunnel": '<path d="M80 70C66 66 64 54 52 52" stroke-width="5"/>' + _at(((82, 71),), _ROUND),
    "trails": '<path d="M28 44C38 36 42 54 54 46C62 40 66 56 74 50M32 66C44 60 48 74 60 66"/>',
    "mine": '<path d="M36 36C52 32 44 48 58 46C68 44 52 60 62 66" stroke-width="5" stroke-opacity="0.5"/>',
    "crumbs": _at(((84, 76), (88, 80), (80, 82), (86, 86), (92, 84)), _DOT),
    "frass": _at(((44, 84), (50, 88), (56, 84), (62, 88), (38, 88)), '<path d="M-2 -2L2 2M-2 2L2 -2"/>'),
    "pinholes": _at(_MANY[:8], '<circle r="1.8"/>'),
    "hole_rows": _at([(x, y) for y in (40, 52, 64) for x in (40, 47, 54, 61)], f'<circle r="2" {_FULL}/>'),
    "strands": '<path d="M44 40L26 34M46 50L26 50M44 60L26 66M56 44L76 38M56 56L76 60"/>',
    "sunken": _shaded('M38 46C46 36 62 38 62 52C62 64 46 66 40 58C36 54 36 50 38 46Z', 0.4),
    "rough": '<path d="M34 46L40 40L44 48L50 40L54 50L60 42L66 50M36 62L42 56L48 64L54 56L62 64"/>',
    "net": '<path d="M30 40L66 70M38 30L72 58M28 54L54 76M34 70L64 32M46 78L72 46M28 52L48 28" stroke-width="1"/>',
    "belt": '<path d="M17 52C34 60 66 60 83 52M16 60C34 68 66 68 84 60"/>',
    "crack": '<path d="M50 26L44 42L54 52L46 66L52 82" stroke-width="3.5"/>',
    "cracks": '<path d="M42 24L46 38L40 52M58 30L54 46L60 62M48 60L44 74L50 86" stroke-width="3"/>',
    "crescent": '<path d="M44 46A12 12 0 1 0 62 62A14 14 0 0 1 44 46" fill="currentColor"/>',
    "stalk_end": _at(((42, 30), (50, 34), (58, 30), (46, 38), (54, 38)), f'<circle r="2.4" {_FULL}/>'),
    "eye_end": _at(((44, 78), (50, 74), (56, 78), (48, 82), (54, 83)), f'<circle r="2.4" {_FULL}/>'),
    "eye_rot": _shaded('M30 74C38 60 62 60 70 74C62 88 38 88 30 74Z', 0.6),
    "core_rot": _shaded('M42 24H58L58 62H42Z', 0.5),
    "v_rot": _shaded('M84 44L50 56L80 74Z', 0.6),
    "mould": _at(_MANY, f'<path d="M0 3V-3"/><circle cy="-4" r="1.4" {_FULL}/>'),
    "sun": (
        '<circle cx="84" cy="16" r="7"/>'
        '<path d="M84 3V6M84 26V29M71 16H74M94 16H97M75 7L77 9M91 23L93 25M75 25L77 23M91 9L93 7"/>'
    ),
    "sun_side": _shaded('M70 34C80 46 80 62 70 74C64 62 64 46 70 34', 0.4),
    "frost": _at(((20, 18), (82, 20)), _FLAKE),
    "hail": _at(((18, 14), (34, 22), (66, 18), (84, 26)), '<circle r="4"/><path d="M4 -6L8 -12"/>'),
    "salt": _at(((24, 84), (36, 88), (64, 88), (78, 84)), '<path d="M-4 -4H4V4H-4Z"/>'),
    "water": '<path d="M8 90C16 84 24 96 32 90C40 84 48 96 56 90C64 84 72 96 80 90C86 86 90 88 94 90"/>',
    "dry_soil": '<path d="M6 88H94M20 88L26 98M42 88L38 98M60 88L66 98M82 88L76 98"/>',
    "spray": '<path d="M8 40H20V62H8ZM12 40V32H22V26M26 24L34 18M26 28H36M26 32L34 38"/>',
    "wilted": '<path d="M76 60C80 70 78 80 72 86M24 42C18 50 18 60 22 68M72 26C80 32 82 42 78 50" stroke-width="3"/>',
    "falling": _at(((24, 78), (78, 80), (62, 92)), '<path d="M-5 0C-3 -5 3 -5 6 0C3 5 -3 5 -5 0"/>'),
    "dead_tip": '<path d="M50 4V34" stroke-width="8"/>',
    "dead_base": '<path d="M50 96V66" stroke-width="8"/>',
    "twig_spots": _at(_ON_TWIG, f'<circle r="2.6" {_FULL}/>'),
    "short_span": '<path d="M44 30L56 30M43 38L57 38M66 8H76M66 30H76M71 8V30"/>',
    "cut": '<path d="M30 40L70 30" stroke-width="3"/>',
    "slits": _at(((50, 30), (50, 44), (50, 58), (50, 72)), '<path d="M-4 -4L4 4" stroke-width="2.5"/>'),
    "swelling": '<path d="M42 66C32 56 34 40 44 36M58 66C68 56 66 40 56 36" stroke-width="3"/>',
    "knots": _at(((44, 36), (54, 48), (46, 60)), _shaded("M-9 0C-9 -8 9 -8 9 0C9 7 -9 7 -9 0Z", 0.7)),
    "galls": _at(((38, 58), (60, 62), (46, 72)), '<circle r="8"/><path d="M-4 -2L-1 2L3 -3L5 2"/>'),
    "beads_on_roots": _at(((30, 88), (42, 80), (58, 80), (70, 88), (50, 86)), '<circle r="3.5"/>'),
    "broom": '<path d="M50 20L36 4M50 20L44 2M50 20L56 2M50 20L64 4M50 30L30 14M50 30L70 14"/>',
    "wedge": f'<path d="M50 50L84 30A40 40 0 0 1 84 70Z" {_FULL} fill-opacity="0.6"/>',
    "stain_ring": '<circle cx="50" cy="50" r="34" stroke-width="6" stroke-dasharray="8 4"/>',
    "pimples": _at(_ON_BARK, '<path d="M-2.5 1.5A2.5 2.5 0 0 1 2.5 1.5"/>'),
    "shelf": '<path d="M62 40C80 38 84 50 62 52M62 60C78 58 82 68 62 70"/>',
    "mushrooms": _at(((22, 50), (32, 46), (74, 48)), '<path d="M-8 0C-6 -9 6 -9 8 0ZM-2 0V9M2 0V9"/>'),
    "fans": '<path d="M50 66L36 44M50 66L44 40M50 66L52 38M50 66L60 42M50 66L66 48"/>',
    "lichen": _at(_FEW, '<path d="M-8 0C-10 -6 -3 -4 -2 -8C2 -3 8 -8 8 -1C11 4 3 4 2 8C-2 4 -8 6 -8 0"/>'),
    "gnawed": '<path d="M38 60L44 64L38 68L44 72L38 76M62 60L56 64L62 68L56 72L62 76" stroke-width="2.5"/>',
    "gnawed_high": '<path d="M36 24L44 28L37 32L44 36L38 40M64 24L56 28L63 32L56 36L62 40" stroke-width="2.5"/>',
    "mound": _shaded('M6 82C14 66 30 66 36 82Z', 0.4),
    "torn": '<path d="M62 34L50 40L56 46L48 54L58 58L50 64L66 68" stroke-width="3"/>',
    "bite": '<path d="M84 40C74 38 72 46 76 50C68 50 68 60 78 62" stroke-width="3"/>',
    "peck": _at(_FEW, f'<path d="M-5 -5L5 -5L0 6Z" {_FULL}/>'),
    "silk": '<path d="M30 30L70 70M34 46L66 54M44 28L56 72M30 60L70 40" stroke-width="1"/>',
    "tent": '<path d="M52 34L40 60H72L66 34Z" stroke-dasharray="2 2"/><path d="M46 48H68M44 54H70"/>',
    "line": '<path d="M36 48H64" stroke-width="4"/>',
    "snap": '<path d="M36 48L44 42L50 52L56 42L64 48" stroke-width="3"/>',
    "suckers": '<path d="M40 84C26 76 22 64 22 50M60 84C74 76 78 64 78 50M22 62L14 56M78 62L86 56"/>',
    "buried": '<path d="M2 34H38M62 34H98M4 42H30M70 42H96" stroke-dasharray="5 3"/>',
    "one_side": _shaded('M50 18C66 8 82 18 78 34C92 46 82 68 50 64Z', 0.5),
    "arrow_down": '<path d="M90 20V70M82 60L90 72L98 60" stroke-width="3"/>',
    "crossed": '<path d="M14 14L86 86M86 14L14 86" stroke-width="3"/>',
    "sprout": '<path d="M50 20C40 18 34 10 38 4C46 4 50 12 50 20C50 12 54 4 62 4C66 10 60 18 50 20"/>',
    "fruit_on_one": _at(((22, 48), (34, 44), (28, 56), (20, 58), (36, 56)), f'<circle r="3.5" {_FULL}/>'),
    "many_fruit": _at(_MANY, '<circle r="5"/>'),
    "few_leaves": _at(((30, 26), (70, 22), (50, 8)), '<path d="M-5 0C-3 -5 3 -5 6 0C3 5 -3 5 -5 0"/>'),
    "hump": (
        '<path d="M20 56C20 50 26 50 30 50C32 38 42 38 44 50H74C80 50 80 58 74 58H26C22 58 20 58 20 56Z" fill="white"/>'
        '<path d="M46 50V58M54 50V58M62 50V58M70 50V58M30 58V63M38 58V63M54 58V63M66 58V63"/>'
    ),
    "stump": '<path d="M76 92V80H94V92M76 80C80 76 90 76 94 80"/>',
    "browsed": '<path d="M24 44L30 40L26 36M74 38L68 42L76 46M40 16L44 22L48 14" stroke-width="3"/>',
    "no_bee": '<ellipse cx="84" cy="20" rx="8" ry="5"/><path d="M80 15V25M86 15V25M74 10L94 30" stroke-width="2"/>',
    "pincers": '<path d="M44 84C36 92 42 98 48 96M56 84C64 92 58 98 52 96"/>',
    "leaf_legs": _at(((16, 84), (84, 84)), f'<path d="M-5 0C-3 -5 3 -5 6 0C3 5 -3 5 -5 0" {_FULL}/>'),
    "shield": _shaded('M32 40H68L62 70L50 86L38 70Z', 0.3),
    "wings": '<path d="M34 40C20 52 22 74 40 84M66 40C80 52 78 74 60 84"/>',
    "hull": '<path d="M50 20V90M44 30L56 44M44 50L56 64"/>',
    "smell": '<path d="M72 20C68 14 76 10 72 4M80 20C76 14 84 10 80 4M88 20C84 14 92 10 88 4"/>',
}  # fmt: skip
