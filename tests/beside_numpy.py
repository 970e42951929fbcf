"""The same spread by numpy and by core, in one run: whether they agree, and how long either takes.

    pip install numpy        (or the system's package of it)
    python3 tests/beside_numpy.py

The pedal force of a clutch with an outside slave from its equations, p = (L/(k·f) + r)/(A_s·s) + p0 and
F = p·A_m/(R·h) + F_p (Pascal's law and the lever), seven inputs off by a little each. Exits 1 when the two disagree.
"""

import json
import subprocess
import time

import numpy as np

SAMPLES = 1_000_000
REPORT = ["cargo", "run", "--release", "-q", "-p", "trialfit-core", "--example", "report", "--"]
OUTPUT = "clutch.pedal-force"
# Key, value and half-width in the unit of the link, factor to SI, distribution.
INPUTS = [
    ("clutch.bearing-load", 1500.0, 150.0, 1.0, "normal-2"),
    ("clutch.slave-bore", 22.225, 0.1, 1e-3, "uniform"),
    ("clutch.master-bore", 19.05, 0.1, 1e-3, "uniform"),
    ("clutch.pedal-ratio", 6.0, 0.2, 1.0, "normal-3"),
    ("clutch.fork-ratio", 1.8, 0.1, 1.0, "triangular"),
    ("clutch.seal-efficiency", 0.93, 0.03, 1.0, "uniform"),
    ("clutch.pedal-efficiency", 0.97, 0.02, 1.0, "triangular"),
]


def by_core(samples):
    items = [f"{key}={value}/{key}.pm={off}/{key}.dist={shape}" for key, value, off, _, shape in INPUTS]
    link = "1.1/" + "/".join(items) + "/end"
    begun = time.perf_counter()
    done = subprocess.run([*REPORT, "--spread", str(samples), "--of", OUTPUT, link], capture_output=True, check=True)
    return json.loads(done.stdout)["outputs"][OUTPUT], time.perf_counter() - begun


def by_numpy(samples):
    begun = time.perf_counter()
    random = np.random.default_rng(1)

    def draw(value, off, factor, shape):
        if shape == "uniform":
            share = random.uniform(-1.0, 1.0, samples)
        elif shape == "triangular":
            share = random.triangular(-1.0, 0.0, 1.0, samples)
        else:
            share = random.standard_normal(samples) / float(shape.removeprefix("normal-"))
        return (value + off * share) * factor

    load, slave, master, pedal, fork, seal, hinge = (draw(*its[1:]) for its in INPUTS)
    area = lambda bore: np.pi / 4.0 * bore**2
    pressure = load / (fork * 0.94) / (area(slave) * seal) + 50e3
    force = pressure * area(master) / (pedal * hinge) + 10.0
    low, median, high = np.quantile(force, [0.05, 0.5, 0.95])
    found = {"mean": force.mean(), "deviation": force.std(ddof=1), "q05": low, "median": median, "q95": high}
    found["beyond"] = float((force > 220.0).mean())
    return found, time.perf_counter() - begun


def main():
    _, start = by_core(1)
    ours, took = by_core(SAMPLES)
    took -= start
    theirs, numpy_took = by_numpy(SAMPLES)
    error = 5.0 * ours["deviation"] / SAMPLES**0.5
    agree = True
    for name, factor in [("mean", 2.0), ("deviation", 2.0), ("q05", 6.0), ("median", 3.0), ("q95", 6.0)]:
        # A quantile in core is exact to a five-hundredth of a deviation.
        close = abs(ours[name] - theirs[name]) <= factor * error + (0.002 * ours["deviation"] if name[0] in "qm" else 0.0)
        agree &= close
        print(f"{name:10} core {ours[name]:.4f}  numpy {theirs[name]:.4f}{'' if close else '  DISAGREE'}")
    print(f"core {took:.2f} s, numpy {numpy_took:.2f} s for {SAMPLES} samples: core takes {took / numpy_took:.1f} times as long")
    raise SystemExit(0 if agree else 1)


if __name__ == "__main__":
    main()
