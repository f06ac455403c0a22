"""The public names, for notebooks and scripts; imported by nobody inside."""

from sourloam.base.errors import BadInput, NotFound, OutOfRange, SourloamError
from sourloam.base.figure import Figure, derive, law, leaf, recomputed, written
from sourloam.base.quantity import read_quantity
from sourloam.base.spread import Spread
from sourloam.evidence.materials import load_materials
from sourloam.fleet.simulate import simulate
from sourloam.paper.keep import keep_plan
from sourloam.plan.year import plan_year
from sourloam.science.ferment.ferment import ferment
from sourloam.service.assemble import knowledge, question_of, site_file
from sourloam.service.batches import AskedBatch
from sourloam.service.culture import work_culture
from sourloam.service.culture_reading import AskedCulture
from sourloam.service.ferment import forecast_batch
from sourloam.service.mix import Asked, judge_mix
from sourloam.service.plan import plan_site
from sourloam.sitefile.write import write_site
from sourloam.views.as_json import plan_object, reason_object
from sourloam.views.culture_json import culture_object
from sourloam.views.ferment_json import ferment_object
from sourloam.views.mix_json import mix_object

__all__ = [
    "Asked",
    "AskedBatch",
    "AskedCulture",
    "BadInput",
    "Figure",
    "NotFound",
    "OutOfRange",
    "SourloamError",
    "Spread",
    "culture_object",
    "derive",
    "ferment",
    "ferment_object",
    "forecast_batch",
    "judge_mix",
    "keep_plan",
    "knowledge",
    "law",
    "leaf",
    "load_materials",
    "mix_object",
    "plan_object",
    "plan_site",
    "plan_year",
    "question_of",
    "read_quantity",
    "reason_object",
    "recomputed",
    "simulate",
    "site_file",
    "work_culture",
    "write_site",
    "written",
]
