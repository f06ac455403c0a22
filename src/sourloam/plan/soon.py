"""What is to do from now on: the tasks of the rotation lived from what is so, without the figures of the year."""

from sourloam.plan.answer import Batch, Task
from sourloam.plan.culture import bran_lots
from sourloam.plan.forecast import batches
from sourloam.plan.ground import ground
from sourloam.plan.question import Question
from sourloam.plan.simulated import living
from sourloam.plan.tasks import tasks


def soon(question: Question) -> tuple[tuple[Task, ...], tuple[Batch, ...]]:
    """Return the tasks from the first day on, earliest first, and the batches that they are about."""
    life = living(question)(question.site)
    planned = batches(question, life)
    lots = bran_lots(question, life)
    return tasks(question, life, planned, lots=lots, places=ground(question, life)), planned
