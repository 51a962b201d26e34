"""Salt and the crop."""

from __future__ import annotations


def yield_percent(ec_ds_m: float, threshold_ds_m: float, slope_percent: float) -> float:
    """Yield left at a salinity, after Maas and Hoffman.

    Args:
        ec_ds_m: conductivity of the saturated soil paste, dS/m (= mS/cm). A nutrient solution is not a paste: for a
            solution read the answer as a rough guide.
        threshold_ds_m: where loss begins.
        slope_percent: loss per dS/m above it, per cent.

    Returns:
        Per cent of full yield, 0 to 100.

    Source: fao-y4263e; plos-0198290 gives bean half its yield at 3.6.

    >>> round(yield_percent(3.6, threshold_ds_m=1.0, slope_percent=19.0))
    51
    """
    return min(100.0, max(0.0, 100 - slope_percent * (ec_ds_m - threshold_ds_m)))


def ec_at_yield_loss(loss_percent: float, threshold_ds_m: float, slope_percent: float) -> float:
    """Salinity at which so much yield is lost.

    Args:
        loss_percent: 0 to 100.
        threshold_ds_m: where loss begins.
        slope_percent: loss per dS/m above it.

    Returns:
        dS/m, saturated paste.

    Source: fao-y4263e; plos-0198290 prints 3.8 for a tenth of the yield of scallop squash.

    >>> round(ec_at_yield_loss(10, threshold_ds_m=3.2, slope_percent=16.0), 1)
    3.8
    """
    return threshold_ds_m + loss_percent / slope_percent
