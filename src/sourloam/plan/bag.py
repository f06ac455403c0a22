"""How a keeper keeps bran coming, so that the lives of a chain can tell on how many days the bag is empty."""

from typing import Final

from sourloam.fleet.arrivals import usual_day
from sourloam.fleet.bran_bag import BagRule
from sourloam.fleet.setting import dose_kg_per_kg
from sourloam.plan.culture import LEAST_BRAN_KG, MARGIN_D, culture_c
from sourloam.plan.question import Question
from sourloam.science.inoculum.chain import bran_batch
from sourloam.science.inoculum.keeping import bran_keeps_d
from sourloam.science.inoculum.schedule import days_ahead

BOUGHT_LEAD_D: Final = 7  # JUDGEMENT: bran that is bought is there within a week


def bag_rule(question: Question) -> BagRule:
    """Return the rule: another lot is begun when the bag lasts as long as it takes, and a margin, at the usual rate.

    A lot is what is used while bran keeps; a small one is not worth five weeks.
    """
    known, stock = question.knowledge.inoculum, question.site.stock
    day = usual_day(question.site.streams, question.knowledge.materials)
    plants, animals = dose_kg_per_kg(question.knowledge)
    used_kg_per_d = (day.scraps_kg - day.animal_kg) * plants + day.animal_kg * animals
    lot_kg = max(LEAST_BRAN_KG, used_kg_per_d * bran_keeps_d(question.climate.indoors_c, known).value)
    if stock.bran_from == "bought":
        begins_at = used_kg_per_d * (BOUGHT_LEAD_D + MARGIN_D)
        return BagRule(stock.bran_kg, begins_at, lot_kg, BOUGHT_LEAD_D, BOUGHT_LEAD_D)
    room_c = culture_c(question)
    lead_d = days_ahead(room_c, known, from_link="rice_wash").value
    has_serum = stock.serum_l >= bran_batch(lot_kg, known).serum_l
    first_d = days_ahead(room_c, known, from_link="serum").value if has_serum else lead_d
    begins_at = used_kg_per_d * (lead_d + MARGIN_D)
    return BagRule(stock.bran_kg, begins_at, lot_kg, round(first_d), round(lead_d))
