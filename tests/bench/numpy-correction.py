"""The arithmetic of a correction by numpy, for the bench to be timed against: codes to light by a table, bilinear log2
gains, light to 16-bit codes, dithered, in blocks of rows that stay in the cache; then writing them. Prints seconds.

usage: numpy-correction.py codes.raw width height profile.json out.raw rounds
"""

import json
import sys
import time

import numpy as np

codes_path, width, height, profile_path, out_path, rounds = sys.argv[1:]
width, height = int(width), int(height)
codes = np.fromfile(codes_path, np.uint8).reshape(height, width, 3)
with open(profile_path) as file:
    profile = json.load(file)
lattice, neutral = profile["lattice"], profile["neutral"]
columns, rows = lattice["columns"], lattice["rows"]
nodes = np.stack(
    [np.array(lattice[c], np.float32).reshape(rows, columns) + np.log2(neutral[c]) for c in ("red", "green", "blue")], 2
).astype(np.float32)
code = np.arange(256) / 255
table = np.where(code <= 0.04045, code / 12.92, ((code + 0.055) / 1.055) ** 2.4).astype(np.float32)
across = (np.arange(width) + 0.5) / width * (columns - 1)
left = np.minimum(across.astype(int), columns - 2)
u = (across - left).astype(np.float32)[None, :, None]
ROWS = 64


def correct():
    out = np.empty((height, width, 3), np.uint16)
    random = np.random.default_rng(1)
    for top in range(0, height, ROWS):
        block = codes[top : top + ROWS]
        down = (np.arange(top, top + len(block)) + 0.5) / height * (rows - 1)
        above = np.minimum(down.astype(int), rows - 2)
        v = (down - above).astype(np.float32)[:, None, None]
        level = nodes[above] * (1 - v) + nodes[above + 1] * v
        light = table[block] * np.exp2(level[:, left] * (1 - u) + level[:, left + 1] * u)
        np.clip(light, 0, 1, out=light)
        coded = np.where(light <= 0.0031308, light * np.float32(12.92), 1.055 * light ** np.float32(1 / 2.4) - 0.055)
        coded *= np.float32(65535)
        coded += random.random(coded.shape, np.float32)
        out[top : top + ROWS] = np.minimum(coded, 65535)
    return out


times = []
for _ in range(int(rounds)):
    began = time.perf_counter()
    out = correct()
    between = time.perf_counter()
    out.tofile(out_path)
    times.append((between - began, time.perf_counter() - between))
print(json.dumps({"arithmetic": min(t[0] for t in times), "writing": min(t[1] for t in times)}))
