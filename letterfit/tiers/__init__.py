"""Tier advice: the least change of a page's grid that gives every panel its figure."""

from letterfit.tiers.advise import advise_tiers, tier_advice
from letterfit.tiers.model import TierAdvice, TierLimits

__all__ = ["TierAdvice", "TierLimits", "advise_tiers", "tier_advice"]
