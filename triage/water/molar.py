"""Molar masses, and what follows from them: forms of one element, strength of bases."""

from __future__ import annotations

import re

from .carbonate import CACO3_PER_DKH

#: Standard atomic weights, g/mol, of the elements that matter here.
ATOMIC_WEIGHTS: dict[str, float] = {
    "H": 1.008, "B": 10.81, "C": 12.011, "N": 14.007, "O": 15.999, "Na": 22.990, "Mg": 24.305, "P": 30.974,
    "S": 32.06, "Cl": 35.45, "K": 39.098, "Ca": 40.078, "Mn": 54.938, "Fe": 55.845, "Cu": 63.546, "Zn": 65.38,
    "Mo": 95.95,
}  # fmt: skip
#: Hydrogen ions that one formula unit of a base takes up.
BASE_EQUIVALENTS: dict[str, int] = {
    "NaHCO3": 1, "Na2CO3": 2, "NaOH": 1, "KHCO3": 1, "K2CO3": 2, "KOH": 1, "Ca(OH)2": 2, "CaCO3": 2, "CaO": 2,
    "MgCO3": 2, "Mg(OH)2": 2,
}  # fmt: skip
_PART = re.compile(r"\(([A-Za-z0-9]+)\)(\d*)|([A-Z][a-z]?)(\d*)|(.)")


def atoms_of(formula: str) -> dict[str, int]:
    """How many atoms of each element a formula holds.

    Args:
        formula: a chemical formula such as ``Ca(OH)2`` or ``MgSO4(H2O)7``; brackets may not be nested.

    Raises:
        ValueError: the formula cannot be read, or names an element outside the table.

    >>> atoms_of("MgSO4(H2O)7")
    {'Mg': 1, 'S': 1, 'O': 11, 'H': 14}
    """
    found: dict[str, int] = {}
    for group, times, element, count, rest in _PART.findall(formula):
        if rest or (element and element not in ATOMIC_WEIGHTS):
            raise ValueError(f"cannot read '{rest or element}' in formula {formula}")
        parts = atoms_of(group) if group else {element: 1}
        for part, number in parts.items():
            found[part] = found.get(part, 0) + number * int(times or count or 1)
    return found


def molar_mass(formula: str) -> float:
    """Mass of one mole.

    Args:
        formula: see :func:`atoms_of`.

    Returns:
        g/mol.

    Raises:
        ValueError: see :func:`atoms_of`.

    Source: standard atomic weights (molar-mass).

    >>> round(molar_mass("Ca(OH)2"), 3)
    74.092
    """
    return sum(ATOMIC_WEIGHTS[element] * number for element, number in atoms_of(formula).items())


def element_of(form: str) -> str:
    """The element that a form is measured for: the first that is neither oxygen nor hydrogen.

    >>> element_of("PO4"), element_of("K")
    ('P', 'K')
    """
    return next(element for element in atoms_of(form) if element not in ("O", "H"))


def brings(product: str, form: str) -> float:
    """How much of a form a product brings.

    Args:
        product: formula of the product, such as ``KH2PO4``.
        form: formula of what is measured, such as ``PO4``; one whose element the product lacks gives 0.

    Returns:
        Grams of the form for each gram of product.

    Source: molar-mass. 1.433 g of monopotassium phosphate bring one gram of phosphate:

    >>> round(1 / brings("KH2PO4", "PO4"), 3), brings("KNO3", "PO4")
    (1.433, 0.0)
    """
    element = element_of(form)
    moles = atoms_of(product).get(element, 0) / atoms_of(form)[element]
    return moles * molar_mass(form) / molar_mass(product)


def form_factor(of: str, as_form: str) -> float:
    """How much of one form a unit of another is, where both hold one atom of the same element.

    Args:
        of: formula of the form that was measured, such as ``N``.
        as_form: formula of the form wanted, such as ``NO3``.

    Returns:
        Factor: mg/L of the measured form times this is mg/L of the form wanted.

    Source: molar-mass; reef-keeper-tests rounds this one to 4.4.

    >>> round(form_factor("N", "NO3"), 2)
    4.43
    """
    return molar_mass(as_form) / molar_mass(of)


def alkalinity_per_gram(base: str) -> float:
    """Alkalinity that a base brings.

    Args:
        base: formula, one of ``BASE_EQUIVALENTS``.

    Returns:
        Grams as CaCO3 per gram.

    Source: molar-mass. filter-maker-alkalinity counts 12 g of sodium bicarbonate for 7.14 g:

    >>> round(7.14 / alkalinity_per_gram("NaHCO3"))
    12
    """
    return BASE_EQUIVALENTS[base] * molar_mass("CaCO3") / 2 / molar_mass(base)


def alkalinity_rise_dkh(base: str, grams: float, volume_l: float) -> float:
    """What a dose of base does to carbonate hardness, once all of it has dissolved.

    Args:
        base: formula, one of ``BASE_EQUIVALENTS``.
        grams: pure base, g.
        volume_l: water, L.

    Returns:
        Degrees of carbonate hardness.

    Source: forum-raising-kh (6 g of sodium bicarbonate in 50 L raise it by 4).

    >>> round(alkalinity_rise_dkh("NaHCO3", 6, 50))
    4
    """
    return grams * alkalinity_per_gram(base) * 1000 / volume_l / CACO3_PER_DKH
