"""Everything that the ferment is handed, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class FermentParameters:
    """Filled from `parameters/ferment.toml`."""

    ready_at_20c_d: Figure
    least_c: Figure
    best_c: Figure
    most_c: Figure
    without_bran_times: Figure  # as long, where only the wild flora is at work
    soured_share: Figure  # of the time to ready
    dry_loss_frac: Figure  # of the dry matter, as gas
    nitrogen_loss_frac: Figure  # as gas
    acid_mol_per_kg: Figure  # titratable acid of the product
    failing_share: Figure  # of all batches
