"""The packaged parameters, for the tests of this room."""

from typing import Final

from sourloam.evidence.parameters import load_parameters
from sourloam.science.inoculum.parameters import InoculumParameters

PARAMETERS: Final = load_parameters(InoculumParameters, "inoculum")
