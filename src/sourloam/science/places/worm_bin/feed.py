"""A feed for worms worked out: what each limit allows, the ration, the shell with it, when the next comes."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final, NamedTuple

import numpy as np

from sourloam.base.figure import Figure, derive, derived, written
from sourloam.science.batch.content import Content
from sourloam.science.places.worm_bin import limits
from sourloam.science.places.worm_bin.feed_parameters import WormFeedParameters
from sourloam.science.places.worm_bin.parameters import WormBinParameters

LIMITS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "appetite": "what they eat in the time until the next feed",
        "first": "a small first ration: they have never had it",
        "layer": "a layer that does not heat, 3 to 5 cm on a tenth of the bed",
        "salt": "salt in the fed corner",
        "ammonia": "ammonia in the fed corner",
        "acid": "acid in the fed corner",
        "bed_salt": "salt in the whole bed",
        "heat": "warmth of the fed corner",
    }
)
SHELL: Final = MappingProxyType({"ground": 1.0, "coarse": 0.0, "lime": 1.0, "none": 0.0})
GROWS, SHRINKS = 1.05, 0.97  # times in a month; between them it holds; judgement


@dataclass(frozen=True)
class Bin:
    """A worm bin on the day on which it is to be fed."""

    worms: Figure
    area: Figure
    warm: Figure  # °C of the bed
    aired_d: float
    is_accustomed: bool
    shell: str = "ground"
    ph: float | None = None  # as it was read


class Feed(NamedTuple):
    """What is fed, to which bin, and the numbers that it goes by."""

    content: Content
    bin: Bin
    p: WormBinParameters
    f: WormFeedParameters

    @property
    def members(self) -> int:
        """Return how many members there are."""
        return int(self.content["mass_kg"].members.size)


def feed_figures(content: Content, bin_: Bin, p: WormBinParameters, f: WormFeedParameters) -> dict[str, Figure]:
    """Return the ration of a feed, what set it, and what it does to corner and bed."""
    feed = Feed(content, bin_, p, f)
    count = feed.members
    bed_ph = (
        written("bed_ph", bin_.ph, "[pH]", words="pH of the bed, as read", members=count)
        if bin_.ph is not None
        else f.bed_ph
    )
    found = _feed(feed)
    found |= _beds(feed)
    allowed = _allowed(feed, found | {"ph": bed_ph})
    ration = derived("ration_g", limits.least_g, allowed, words="what they get now")
    found["ration_g"] = ration
    found |= {f"by_{name}": each for name, each in allowed.items()}
    return found | _corner(feed, found | {"ph": bed_ph}) | _shells(feed, found) | _outlook(feed, found)


def binding(figures: Mapping[str, Figure]) -> str:
    """Return the limit that sets the ration most often."""
    held = {name: figures[f"by_{name}"].members for name in LIMITS if f"by_{name}" in figures}
    names = list(held)
    first = np.argmin(np.stack([held[each] for each in names]), axis=0)
    return names[int(np.argmax(np.bincount(first, minlength=len(names))))]


def population(figures: Mapping[str, Figure]) -> str:
    """Say what becomes of the worms, if they are fed on like this: grows, holds, shrinks."""
    times = figures["month_times"].value
    return "grow" if times > GROWS else "shrink" if times < SHRINKS else "hold"


def _feed(feed: Feed) -> dict[str, Figure]:
    """Return what a kilogram of the feed brings, once it was aired and shell is mixed in."""
    content, bin_, p, f = feed
    count = feed.members
    salts = derive(
        "feed_salts_g_per_kg",
        limits.salts_g_per_kg,
        words="soluble salts in the batch",
        conductivity_ds_per_m=content["conductivity_ds_per_m"],
        dry_wb_frac=content["dry_wb_frac"],
    )
    ammonia = derive(
        "feed_ammonia_g_per_kg",
        limits.per_kg,
        words="ammonia in the batch",
        amount_g=content["ammonia_g"],
        mass_kg=content["mass_kg"],
    )
    aired = derive(
        "aired_frac",
        limits.aired_frac,
        words="acid that airing left",
        rate_per_d=f.acid_gone_per_d,
        days=written("aired_d", bin_.aired_d, "d", words="days in the air", members=count),
        temperature_c=bin_.warm,
    )
    share = (
        p.lime_share_frac
        if SHELL[bin_.shell]
        else written("no_shell", 0.0, "1", words="no shell that acts", members=count)
    )
    left = derive(
        "acid_left_mol_per_kg",
        limits.acid_left_mol_per_kg,
        words="acid that the bed has to take up",
        acid_mol_per_kg=content["titratable_mol_per_kg"],
        aired_frac=aired,
        neutralised_frac=share,
    )
    before = derive(
        "acid_aired_mol_per_kg",
        limits.acid_left_mol_per_kg,
        words="acid that is left after airing",
        acid_mol_per_kg=content["titratable_mol_per_kg"],
        aired_frac=aired,
        neutralised_frac=written("nothing", 0.0, "1", words="nothing neutralised yet", members=count),
    )
    return {each.name: each for each in (salts, ammonia, aired, left, before)}


def _beds(feed: Feed) -> dict[str, Figure]:
    """Return the bed, and the part of it that a feed mixes with."""
    _, bin_, _, f = feed
    count = feed.members
    whole = written("whole", 1.0, "1", words="all of the bed", members=count)
    common = {"area_m2": bin_.area, "kg_per_l": f.bed_kg_per_l}
    return {
        "corner_kg": derive(
            "corner_kg",
            limits.bed_kg,
            words="bed that a feed mixes with",
            part=f.corner_frac,
            depth_m=f.corner_m,
            **common,
        ),
        "bed_kg": derive("bed_kg", limits.bed_kg, words="the bed", part=whole, depth_m=f.bed_m, **common),
    }


def _allowed(feed: Feed, found: Mapping[str, Figure]) -> dict[str, Figure]:
    """Return the most that each limit allows."""
    content, bin_, p, f = feed
    eats = _appetite(feed)
    weekly = derive(
        "appetite_kg",
        limits.eaten_kg,
        words="what they eat in that time",
        worms_kg=bin_.worms,
        eats_kg_per_kg_d=p.eats_kg_per_kg_d,
        appetite=eats,
        days=p.feed_every_d,
    )
    allowed = {"appetite": weekly}
    if not bin_.is_accustomed:
        allowed["first"] = derive(
            "first_kg", limits.part_kg, words="the first of it", whole_kg=weekly, part=p.first_share_frac
        )
    corner = found["corner_kg"]
    allowed["layer"] = derive(
        "layer_kg",
        limits.by_layer_kg,
        words="in a thin layer",
        area_m2=bin_.area,
        part=f.corner_frac,
        layer_m=p.layer_m,
        kg_per_l=content["kg_per_l"],
    )
    allowed |= _mixing(feed, found)
    allowed["acid"] = derive(
        "acid_kg",
        limits.by_acid_kg,
        words=LIMITS["acid"],
        corner_kg=corner,
        buffer_mol_per_kg=f.bed_buffer_mol_per_kg,
        bed_ph=found["ph"],
        least_ph=f.corner_ph_least,
        acid_mol_per_kg=found["acid_left_mol_per_kg"],
    )
    allowed["heat"] = derive(
        "heat_kg",
        limits.by_heat_kg,
        words=LIMITS["heat"],
        area_m2=bin_.area,
        part=f.corner_frac,
        rise_k=f.rise_k_most,
        sheds_w_per_m2_k=f.sheds_w_per_m2_k,
        burnt_frac_per_d=f.burnt_frac_per_d,
        dry_wb_frac=content["dry_wb_frac"],
    )
    return allowed


def _mixing(feed: Feed, found: Mapping[str, Figure]) -> dict[str, Figure]:
    """Return the most that salt and ammonia allow, in the corner and in the bed."""
    f, corner = feed.f, found["corner_kg"]
    allowed = {}
    mixing = (
        ("salt", corner, f.salt_well_g_per_kg, f.bed_salt_g_per_kg, found["feed_salts_g_per_kg"]),
        ("bed_salt", found["bed_kg"], f.salt_well_g_per_kg, f.bed_salt_g_per_kg, found["feed_salts_g_per_kg"]),
        ("ammonia", corner, f.ammonia_well_mg_per_g, _little(f), found["feed_ammonia_g_per_kg"]),
    )
    for name, mass, most, there, brings in mixing:
        allowed[name] = derive(
            f"{name}_kg",
            limits.by_mixing_kg,
            words=LIMITS[name],
            corner_kg=mass,
            limit_g_per_kg=most,
            bed_g_per_kg=there,
            feed_g_per_kg=brings,
        )
    return allowed


def _corner(feed: Feed, found: Mapping[str, Figure]) -> dict[str, Figure]:
    """Return what corner and bed come to after a ration."""
    f = feed.f
    ration, corner = found["ration_g"], found["corner_kg"]
    salt = derive(
        "corner_salt_g_per_kg",
        limits.mixed_g_per_kg,
        words="salts in the fed corner",
        corner_kg=corner,
        bed_g_per_kg=f.bed_salt_g_per_kg,
        ration_g=ration,
        feed_g_per_kg=found["feed_salts_g_per_kg"],
    )
    ammonia = derive(
        "corner_ammonia_mg_per_g",
        limits.mixed_g_per_kg,
        words="ammonia in the fed corner, mg to a gram",
        corner_kg=corner,
        bed_g_per_kg=_little(f),
        ration_g=ration,
        feed_g_per_kg=found["feed_ammonia_g_per_kg"],
    )
    corner_ph = derive(
        "corner_ph",
        limits.corner_ph,
        words="pH of the fed corner",
        corner_kg=corner,
        bed_ph=found["ph"],
        buffer_mol_per_kg=f.bed_buffer_mol_per_kg,
        ration_g=ration,
        acid_mol_per_kg=found["acid_left_mol_per_kg"],
    )
    bed_ph = derive(
        "bed_ph",
        limits.corner_ph,
        words="pH of the whole bed after it",
        corner_kg=found["bed_kg"],
        bed_ph=found["ph"],
        buffer_mol_per_kg=f.bed_buffer_mol_per_kg,
        ration_g=ration,
        acid_mol_per_kg=found["acid_left_mol_per_kg"],
    )
    return {each.name: each for each in (salt, ammonia, corner_ph, bed_ph)}


def _shells(feed: Feed, found: Mapping[str, Figure]) -> dict[str, Figure]:
    """Return the shell with a ration, and with a kilogram."""
    _, bin_, p, _ = feed
    ration = found["ration_g"]
    acts = (
        p.shell_acts_frac
        if SHELL[bin_.shell]
        else replace(p.shell_acts_frac, members=np.zeros_like(p.shell_acts_frac.members), at_medians=0.0)
    )
    shell = derive(
        "eggshell_g",
        limits.eggshell_g,
        words="ground eggshell with it",
        ration_g=ration,
        acid_mol_per_kg=found["acid_aired_mol_per_kg"],
        share_frac=p.lime_share_frac,
        carbonate_frac=p.shell_carbonate_frac,
        acts_frac=acts,
    )
    kilogram = written("kilogram_g", 1000.0, "g", words="a kilogram of the batch", members=feed.members)
    each_kg = derive(
        "eggshell_g_per_kg",
        limits.eggshell_g,
        words="ground eggshell to a kilogram of the batch",
        ration_g=kilogram,
        acid_mol_per_kg=found["acid_aired_mol_per_kg"],
        share_frac=p.lime_share_frac,
        carbonate_frac=p.shell_carbonate_frac,
        acts_frac=acts,
    )
    return {each.name: each for each in (shell, each_kg)}


def _outlook(feed: Feed, found: Mapping[str, Figure]) -> dict[str, Figure]:
    """Return when the next is due, what becomes of the worms, and what the bed bears besides."""
    _, bin_, p, f = feed
    ration, eats = found["ration_g"], _appetite(feed)
    days = derive(
        "next_feed_days",
        limits.next_feed_days,
        words="days until that is eaten",
        ration_g=ration,
        worms_kg=bin_.worms,
        eats_kg_per_kg_d=p.eats_kg_per_kg_d,
        appetite=eats,
    )
    in_full = {name: each for name, each in found.items() if name.startswith("by_") and name != "by_first"}
    full = derived("full_g", limits.least_g, in_full, words="what they get once they are used to it")
    fed = derive(
        "fed_kg_per_kg_d",
        limits.fed_kg_per_kg_d,
        words="feed in a day, to a kilogram of worms",
        ration_g=full,
        days=p.feed_every_d,
        worms_kg=bin_.worms,
    )
    times = derive(
        "month_times",
        limits.month_times,
        words="worms in a month, against now",
        worms_kg=bin_.worms,
        area_m2=bin_.area,
        most_kg_per_m2=f.most_kg_per_m2,
        doubles_d=f.doubles_d,
        appetite=eats,
        fed_kg_per_kg_d=fed,
        upkeep_kg_per_kg_d=f.upkeep_kg_per_kg_d,
    )
    bran = derive(
        "bran_most_ml",
        limits.bran_most_ml,
        words="starter bran that the bedding bears",
        area_m2=bin_.area,
        depth_m=f.bed_m,
        ml_per_l=f.bran_ml_per_l,
    )
    lime = derive(
        "lime_for_bed_g",
        limits.lime_for_bed_g,
        words="ground shell or lime on a sour bed, once",
        area_m2=bin_.area,
        depth_m=f.corner_m,
        kg_per_l=f.bed_kg_per_l,
        buffer_mol_per_kg=f.bed_buffer_mol_per_kg,
        acts_frac=p.shell_acts_frac,
    )
    return {each.name: each for each in (days, times, bran, lime, eats)}


def _appetite(feed: Feed) -> Figure:
    return derive(
        "appetite",
        limits.appetite,
        words="appetite at that warmth",
        temperature_c=feed.bin.warm,
        low_c=feed.p.stops_low_c,
        best_c=feed.p.best_c,
        high_c=feed.p.stops_high_c,
    )


def _little(f: WormFeedParameters) -> Figure:
    """Return the ammonia of a bed that smells of none: a twentieth of what is borne."""
    return replace(
        f.ammonia_well_mg_per_g,
        name="bed_ammonia",
        words="ammonia of a bed that smells of none",
        members=0.05 * f.ammonia_well_mg_per_g.members,
        at_medians=0.05 * f.ammonia_well_mg_per_g.value,
    )
