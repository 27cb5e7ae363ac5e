"""Weighs signs into likelihoods of causes, and finds the question that tells most."""

from service.compute.evidence.ask import Split, best_splits
from service.compute.evidence.table import EvidenceTable, SignWeight, Weights, evidence_table
from service.compute.evidence.weigh import Likelihoods, weigh

__all__ = [
    "EvidenceTable",
    "Likelihoods",
    "SignWeight",
    "Split",
    "Weights",
    "best_splits",
    "evidence_table",
    "weigh",
]
