"""The adhesive: its file, a batch of it, how long it may be worked, how warm it gets, and its cautions."""

from bench.adhesive.batch import (
    Batch,
    Rung,
    ladder,
    prescribe,
    scale_advice,
    smallest_batch_g,
    worst_ratio_error,
)
from bench.adhesive.cautions import Caution, asks_after_hardener, cautions, first_aid
from bench.adhesive.cure import STAGES, Stage, cure_s
from bench.adhesive.faults import (
    AdhesiveFileFault,
    AmountNotAllowed,
    FieldDoubled,
    FieldMissing,
    FieldNotAllowed,
    FieldsDisagree,
    FieldUnknown,
    NoSuchAdhesive,
    NotAnAdhesiveFile,
    OutsideRange,
)
from bench.adhesive.heat import Exotherm, cups_needed, exotherm
from bench.adhesive.part_words import part_name, part_word
from bench.adhesive.poured import Poured, judge_poured, poured_words
from bench.adhesive.product import Product
from bench.adhesive.product_file import (
    DEFAULT_PRODUCT,
    find_product,
    load_product,
    parse_product,
    product_toml,
    shipped_products,
)
from bench.adhesive.scale import USUAL_SCALE, Scale
from bench.adhesive.working_time import film_open_s, working_time_s
from bench.adhesive.workshop import Work, workshop_cautions

__all__ = [
    "DEFAULT_PRODUCT",
    "STAGES",
    "USUAL_SCALE",
    "AdhesiveFileFault",
    "AmountNotAllowed",
    "Batch",
    "Caution",
    "Exotherm",
    "FieldDoubled",
    "FieldMissing",
    "FieldNotAllowed",
    "FieldUnknown",
    "FieldsDisagree",
    "NoSuchAdhesive",
    "NotAnAdhesiveFile",
    "OutsideRange",
    "Poured",
    "Product",
    "Rung",
    "Scale",
    "Stage",
    "Work",
    "asks_after_hardener",
    "cautions",
    "cups_needed",
    "cure_s",
    "exotherm",
    "film_open_s",
    "find_product",
    "first_aid",
    "judge_poured",
    "ladder",
    "load_product",
    "parse_product",
    "part_name",
    "part_word",
    "poured_words",
    "prescribe",
    "product_toml",
    "scale_advice",
    "shipped_products",
    "smallest_batch_g",
    "working_time_s",
    "workshop_cautions",
    "worst_ratio_error",
]
