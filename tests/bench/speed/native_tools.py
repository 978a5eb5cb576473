"""Native libraries at the work that the bench times, in one process that stays: a line of JSON in, a line out.

in:  {"do": "opencv", "path": "frame.jpg"}     out: {"ms": 412.3} or {"ms": ..., "parts": {...}} or {"error": "..."}
{"do": "have"} answers with the tools that are installed. What is timed begins with the file's bytes in memory.
"""

import ctypes
import ctypes.util
import json
import sys
import time

COLUMNS, ROWS = 96, 64


def library(*names):
    for name in names:
        try:
            return ctypes.CDLL(name)
        except OSError:
            pass
    return None


try:
    import cv2
except ImportError:
    cv2 = None
try:
    import numpy as np
except ImportError:
    np = None
turbojpeg = library("libturbojpeg.so.0", "libturbojpeg.dylib")
vips = library("libvips.so.42", "libvips.42.dylib")
libraw = library("libraw.so.23", "libraw.so.20", "libraw.dylib")

held = {}


def bytes_of(path):
    """The file's bytes; those of one file are held at a time."""
    if path not in held:
        held.clear()
        with open(path, "rb") as file:
            held[path] = file.read()
    return held[path]


def srgb_table(codes):
    code = np.arange(codes) / (codes - 1)
    return np.where(code <= 0.04045, code / 12.92, ((code + 0.055) / 1.055) ** 2.4).astype(np.float32)


TABLES = {8: srgb_table(256), 16: srgb_table(65536)} if np is not None else {}


def timed(work):
    began = time.perf_counter()
    parts = work()
    return {"ms": 1000 * (time.perf_counter() - began), **({"parts": parts} if parts else {})}


# --- decoding a JPEG and nothing else ---

if turbojpeg:
    turbojpeg.tjInitDecompress.restype = ctypes.c_void_p
    RGBA, FLAGS = 7, 0


def turbo(request):
    data = bytes_of(request["path"])
    handle = ctypes.c_void_p(turbojpeg.tjInitDecompress())
    width, height, sampling, space = (ctypes.c_int() for _ in range(4))
    size = ctypes.c_ulong(len(data))
    turbojpeg.tjDecompressHeader3(
        handle, data, size, ctypes.byref(width), ctypes.byref(height), ctypes.byref(sampling), ctypes.byref(space)
    )
    pixels = np.zeros(width.value * height.value * 4, np.uint8)
    pixels[::4096] = 1  # so that the memory is there before the clock starts

    def decode():
        status = turbojpeg.tjDecompress2(
            handle, data, size, pixels.ctypes.data_as(ctypes.c_void_p), width, 0, height, RGBA, FLAGS
        )
        if status != 0:
            raise RuntimeError("libjpeg-turbo did not decode this file")

    result = timed(decode)
    turbojpeg.tjDestroy(handle)
    return result


# --- decoding, linear light, mean and variance of blocks ---


def opencv(request):
    data = np.frombuffer(bytes_of(request["path"]), np.uint8)

    def read():
        began = time.perf_counter()
        codes = cv2.imdecode(data, cv2.IMREAD_UNCHANGED)
        decoded = time.perf_counter()
        # OpenCV's own tables hold 256 codes
        light = cv2.LUT(codes, TABLES[8]) if codes.dtype == np.uint8 else TABLES[16][codes]
        mean = cv2.resize(light, (COLUMNS, ROWS), interpolation=cv2.INTER_AREA)
        squares = cv2.resize(cv2.multiply(light, light), (COLUMNS, ROWS), interpolation=cv2.INTER_AREA)
        variance = squares - mean * mean
        if not np.isfinite(variance).all():
            raise RuntimeError("no finite variance")
        return {"decoding": 1000 * (decoded - began)}

    return timed(read)


if vips:
    vips.vips_init(b"bench")
    vips.vips_cache_set_max(0)
    for name in ("vips_image_new_from_buffer", "vips_image_write_to_memory"):
        getattr(vips, name).restype = ctypes.c_void_p
SC_RGB = 28


def by_vips(request):
    data = bytes_of(request["path"])

    def step(name, *arguments):
        out = ctypes.c_void_p()
        first = [argument for argument in arguments if isinstance(argument, ctypes.c_void_p)]
        rest = arguments[len(first) :]
        if getattr(vips, name)(*first, ctypes.byref(out), *rest, None) != 0:
            raise RuntimeError(f"{name} failed")
        return out

    def read():
        codes = ctypes.c_void_p(
            vips.vips_image_new_from_buffer(data, ctypes.c_size_t(len(data)), b"", None)
        )
        width, height = vips.vips_image_get_width(codes), vips.vips_image_get_height(codes)
        light = step("vips_colourspace", codes, ctypes.c_int(SC_RGB))
        square = step("vips_multiply", light, light)
        both = step("vips_bandjoin2", light, square)  # one pass over the pixels for both
        across, down = ctypes.c_double(width // COLUMNS), ctypes.c_double(height // ROWS)
        small = step("vips_shrink", both, across, down)
        size = ctypes.c_size_t()
        samples = vips.vips_image_write_to_memory(small, ctypes.byref(size))
        if not samples:
            raise RuntimeError("libvips did not read this file")
        vips.g_free(ctypes.c_void_p(samples))
        for image in (small, both, square, light, codes):
            vips.g_object_unref(image)

    return timed(read)


# --- unpacking a raw file alone ---

if libraw:
    libraw.libraw_init.restype = ctypes.c_void_p


def unpack(request):
    data = bytes_of(request["path"])
    handle = ctypes.c_void_p(libraw.libraw_init(0))

    def work():
        for status in (
            libraw.libraw_open_buffer(handle, data, ctypes.c_size_t(len(data))),
            libraw.libraw_unpack(handle),
        ):
            if status != 0:
                raise RuntimeError(f"LibRaw: {status}")

    try:
        return timed(work)
    finally:
        libraw.libraw_close(handle)


# --- a correction: codes to light, bilinear log2 gains, 16-bit codes with a dither, written as they are ---

BLOCK_ROWS = 64  # blocks of rows stay in the cache


def nodes_of(profile):
    lattice, neutral = profile["lattice"], profile["neutral"]
    shape = (lattice["rows"], lattice["columns"])
    channels = [
        np.array(lattice[name], np.float32).reshape(shape) + np.log2(neutral[name])
        for name in ("red", "green", "blue")
    ]
    return np.stack(channels, 2).astype(np.float32)


def between(count, nodes):
    """For each pixel the node before it, and how far it lies towards the next."""
    at = (np.arange(count) + 0.5) / count * (nodes - 1)
    before = np.minimum(at.astype(int), nodes - 2)
    return before, (at - before).astype(np.float32)


def coded(light, random):
    code = np.where(light <= 0.0031308, light * np.float32(12.92), 1.055 * light ** np.float32(1 / 2.4) - 0.055)
    code *= np.float32(65535)
    code += random.random(code.shape, np.float32)
    return np.minimum(code, 65535)


def corrected_by_numpy(codes, nodes):
    height, width = codes.shape[:2]
    left, u = between(width, nodes.shape[1])
    above, v = between(height, nodes.shape[0])
    u = u[None, :, None]
    out = np.empty((height, width, 3), np.uint16)
    random = np.random.default_rng(1)
    for top in range(0, height, BLOCK_ROWS):
        rows = slice(top, top + BLOCK_ROWS)
        down = v[rows][:, None, None]
        level = nodes[above[rows]] * (1 - down) + nodes[above[rows] + 1] * down
        light = TABLES[8][codes[rows]] * np.exp2(level[:, left] * (1 - u) + level[:, left + 1] * u)
        out[rows] = coded(np.clip(light, 0, 1, out=light), random)
    return out


def corrected_by_opencv(codes, nodes):
    # remap knows places to 1/32 of a node's distance: within 0.5 % of what numpy makes
    height, width = codes.shape[:2]
    left, u = between(width, nodes.shape[1])
    above, v = between(height, nodes.shape[0])
    out = np.empty((height, width, 3), np.uint16)
    dither = np.empty((BLOCK_ROWS, width, 3), np.float32)
    lattice_x = np.repeat((left + u)[None, :], BLOCK_ROWS, 0).astype(np.float32)
    for top in range(0, height, BLOCK_ROWS):
        rows = slice(top, min(top + BLOCK_ROWS, height))
        count = rows.stop - rows.start
        lattice_y = np.repeat((above + v)[rows, None], width, 1).astype(np.float32)
        level = cv2.remap(nodes, lattice_x[:count], lattice_y, cv2.INTER_LINEAR)
        light = cv2.multiply(cv2.LUT(codes[rows], TABLES[8]), cv2.exp(level * np.float32(np.log(2))))
        code = cv2.pow(cv2.min(light, (1.0, 1.0, 1.0, 0.0)), 1 / 2.4)
        cv2.randu(dither[:count], 0, 1)
        code = cv2.scaleAdd(code, 1.055 * 65535, dither[:count] - np.float32(0.055 * 65535))
        dark = light <= 0.0031308
        np.copyto(code, light * np.float32(12.92 * 65535), where=dark)
        out[rows] = cv2.max(cv2.min(code, (65535.0,) * 4), (0.0,) * 4)
    return out


def correct(request):
    data = np.frombuffer(bytes_of(request["path"]), np.uint8)
    nodes = nodes_of(request["profile"])
    by = corrected_by_numpy if request["by"] == "numpy" else corrected_by_opencv

    def work():
        began = time.perf_counter()
        codes = cv2.cvtColor(cv2.imdecode(data, cv2.IMREAD_COLOR), cv2.COLOR_BGR2RGB)
        decoded = time.perf_counter()
        out = by(codes, nodes)
        done = time.perf_counter()
        out.tofile(request["out"])
        end = time.perf_counter()
        names = ("decoding", "arithmetic", "writing")
        return dict(zip(names, (1000 * (decoded - began), 1000 * (done - decoded), 1000 * (end - done))))

    return timed(work)


def have(_):
    needs = {
        "libjpeg-turbo": turbojpeg and np is not None,
        "opencv": cv2 is not None and np is not None,
        "libvips": vips,
        "libraw": libraw,
    }
    return {"tools": [name for name, found in needs.items() if found]}


WORK = {"have": have, "libjpeg-turbo": turbo, "opencv": opencv, "libvips": by_vips, "libraw": unpack, "correct": correct}

for line in sys.stdin:
    try:
        request = json.loads(line)
        answer = WORK[request["do"]](request)
    except Exception as error:  # whatever fails is told, and the next line may fare better
        answer = {"error": f"{type(error).__name__}: {error}"}
    print(json.dumps(answer), flush=True)
