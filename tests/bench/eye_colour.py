"""Colours through a camera, from measured spectra: what the correction by greys leaves.

Light, cloth and camera are spectra that colour-science ships: illuminants of the CIE,
reflectances of the colour checkers and of 190 patches, sensitivities of two cameras (NPL).
The camera balances to the paper, not quite; goes to sRGB by a matrix fitted to the 190
patches; bends the tones; and quantises. The printer's growth of dots varies.
"""

from __future__ import annotations

import warnings
from dataclasses import dataclass

import numpy as np

from stash.eye.colour.difference import difference, lab_of_srgb
from stash.eye.colour.greys import INK, PAPER, coded, correction_by
from stash.model.calibration import INK_SHARES

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour
    from colour.characterisation import read_training_data_rawtoaces_v1

DAYLIGHT = ("D50", "D55", "D65", "D75", "ISO 7589 Photographic Daylight")
COOL = ("FL2", "FL7", "LED-B4")
WARM = ("A", "LED-B1", "LED-B2")
SHAPE = colour.SpectralShape(400, 700, 10)


def _spectrum(sd) -> np.ndarray:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return sd.copy().align(SHAPE).values


LIGHT = {name: _spectrum(colour.SDS_ILLUMINANTS[name]) for name in (*DAYLIGHT, *COOL, *WARM)}
CAMERAS = {
    name: _spectrum(sd) for name, sd in colour.MSDS_CAMERA_SENSITIVITIES.items()
}
CMFS = _spectrum(colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"])
TRAINING = _spectrum(read_training_data_rawtoaces_v1()).T
CHECKED = np.array([
    _spectrum(sd) for kind in ("BabelColor Average", "ISO 17321-1", "cc_ohta")
    for sd in colour.SDS_COLOURCHECKERS[kind].values()
])
TO_SRGB = np.array([[3.2406, -1.5372, -0.4986], [-0.9689, 1.8758, 0.0415],
                    [0.0557, -0.2040, 1.0570]])


def true_lab(reflectances: np.ndarray) -> np.ndarray:
    """CIELAB of the reflectances under D65, (n, 3)."""
    return lab_of_srgb(np.clip(coded(true_srgb(reflectances)), 0, 1))


def true_srgb(reflectances: np.ndarray) -> np.ndarray:
    """Linear sRGB under D65, (n, 3), a perfect white 1."""
    weights = CMFS * LIGHT["D65"][:, None]
    xyz = reflectances @ weights / weights[:, 1].sum()
    white = weights.sum(axis=0) / weights[:, 1].sum()
    return (xyz * np.array([0.9505, 1.0, 1.089]) / white) @ TO_SRGB.T


@dataclass(frozen=True)
class Pipeline:
    """One camera, light and printer."""

    camera: str
    light: str
    balance: float
    contrast: float
    saturation: float
    exposure: float
    gain: float

    def levels(self, reflectances: np.ndarray, random) -> np.ndarray:
        """What the picture shows, 0 to 255, (n, 3)."""
        sensitivity = CAMERAS[self.camera]
        raw = reflectances @ (sensitivity * LIGHT[self.light][:, None])
        white = np.full(len(SHAPE.range()), 1.0) @ (sensitivity * LIGHT[self.light][:, None])
        usual = np.full(len(SHAPE.range()), 1.0) @ (sensitivity * LIGHT["D65"][:, None])
        raw = raw / (white**self.balance * (usual / usual[1] * white[1]) ** (1 - self.balance))
        linear = raw @ _matrix(self.camera)
        grey = linear.mean(axis=1, keepdims=True)
        linear = grey + self.saturation * (linear - grey)
        shown = coded(linear * self.exposure)
        bend = 1 / (1 + np.exp(-self.contrast * (shown - 0.5)))
        low, high = 1 / (1 + np.exp(self.contrast / 2)), 1 / (1 + np.exp(-self.contrast / 2))
        shown = (bend - low) / (high - low)
        return np.clip(np.round(shown * 255 + random.normal(0, 0.4, shown.shape)), 0, 255)

    def steps(self, random) -> np.ndarray:
        """The five greys as the picture shows them."""
        share = np.array(INK_SHARES)
        covered = share + 4 * self.gain * share * (1 - share)
        light = (PAPER + random.normal(0, 0.02)) * (1 - covered) + INK * covered
        return self.levels(np.repeat(light[:, None], len(SHAPE.range()), axis=1), random)


_MATRICES: dict[str, np.ndarray] = {}


def _matrix(camera: str) -> np.ndarray:
    if camera not in _MATRICES:
        weights = CAMERAS[camera] * LIGHT["D55"][:, None]
        raw = TRAINING @ weights / weights.sum(axis=0)
        matrix = np.linalg.lstsq(raw, true_srgb(TRAINING), rcond=None)[0]
        _MATRICES[camera] = matrix / matrix.sum(axis=0)
    return _MATRICES[camera]


def pipelines(seed: int, lights: tuple[str, ...], count: int) -> list[Pipeline]:
    """Cameras drawn from a seed, over each light in turn."""
    random = np.random.default_rng(seed)
    return [
        Pipeline(camera=str(random.choice(list(CAMERAS))), light=lights[i % len(lights)],
                 balance=float(random.uniform(0.75, 1.0)), contrast=float(random.uniform(0.5, 4)),
                 saturation=float(random.uniform(0.95, 1.2)),
                 exposure=float(random.uniform(0.75, 1.1)), gain=float(random.uniform(0.06, 0.24)))
        for i in range(count)
    ]


def errors(seed: int, lights: tuple[str, ...], count: int = 60) -> dict[str, np.ndarray]:
    """CIEDE2000 of every patch: plain, by white only, by the five greys, and of pairs."""
    random = np.random.default_rng(seed + 1)
    true = true_lab(CHECKED)
    found: dict[str, list] = {"plain photograph": [], "white only": [], "five steps": [],
                              "two compared": []}
    for pipe in pipelines(seed, lights, count):
        seen, steps = pipe.levels(CHECKED, random), pipe.steps(random)
        white = np.clip(seen / steps[0] * 255 * float(coded(np.array([[PAPER] * 3]))[0, 0]), 0, 255)
        correction = correction_by(steps)
        found["plain photograph"].append(difference(lab_of_srgb(seen / 255), true))
        found["white only"].append(difference(lab_of_srgb(white / 255), true))
        if correction is not None:
            got = lab_of_srgb(coded(correction.reflectance(seen)))
            found["five steps"].append(difference(got, true))
            one, other = random.permutation(len(true)), random.permutation(len(true))
            near = difference(true[one], true[other]) < 25
            apart = difference(got[one], got[other]) - difference(true[one], true[other])
            found["two compared"].append(np.abs(apart[near]))
    return {name: np.concatenate(parts) for name, parts in found.items() if parts}


def table(seed: int) -> str:
    """The figures as lines of a table."""
    lines = []
    for group, lights in (("daylight", DAYLIGHT), ("cool light", COOL), ("warm light", WARM)):
        for name, error in errors(seed, lights).items():
            half, most = np.percentile(error, [50, 90])
            lines.append(f"| {group} | {name} | {half:.1f} | {most:.1f} | "
                         f"{100 * (error < 5).mean():.0f} % | {100 * (error < 12).mean():.0f} % |")
    return "\n".join(lines)


if __name__ == "__main__":
    print(table(5))
