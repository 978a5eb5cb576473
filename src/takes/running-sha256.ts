/**
 * SHA-256 of bytes that come bit by bit, which the browser's own takes in one piece only.
 * Source: FIPS 180-4, sections 4.1.2, 4.2.2, 5.1.1, 5.3.3 and 6.2.2.
 */
export class RunningSha256 {
  private readonly state = Int32Array.from(PRIMES.slice(0, 8), (prime) => fraction(Math.sqrt(prime)));
  private readonly schedule = new Int32Array(64);
  private readonly block = new Uint8Array(BLOCK);
  /** Bytes so far, of which the last ones wait in the block. */
  private length = 0;

  add(bytes: Uint8Array): void {
    let at = 0;
    while (at < bytes.length) {
      const filled = this.length % BLOCK;
      const more = Math.min(BLOCK - filled, bytes.length - at);
      if (more === BLOCK) this.takeIn(bytes, at);
      else {
        this.block.set(bytes.subarray(at, at + more), filled);
        if (filled + more === BLOCK) this.takeIn(this.block, 0);
      }
      this.length += more;
      at += more;
    }
  }

  /** Hex. Nothing can be added after it. */
  digest(): string {
    const bits = this.length * 8;
    const isShort = this.length % BLOCK < BLOCK - 8;
    const padding = new Uint8Array(BLOCK - (this.length % BLOCK) + (isShort ? 0 : BLOCK));
    padding[0] = 0x80;
    const end = new DataView(padding.buffer);
    end.setUint32(padding.length - 8, Math.floor(bits / 2 ** 32));
    end.setUint32(padding.length - 4, bits >>> 0);
    this.add(padding);
    return Array.from(this.state, (word) => (word >>> 0).toString(16).padStart(8, '0')).join('');
  }

  private takeIn(bytes: Uint8Array, from: number): void {
    const { schedule, state } = this;
    for (let t = 0, at = from; t < 16; t++, at += 4)
      schedule[t] = (bytes[at]! << 24) | (bytes[at + 1]! << 16) | (bytes[at + 2]! << 8) | bytes[at + 3]!;
    for (let t = 16; t < 64; t++) {
      const [near, far] = [schedule[t - 2]!, schedule[t - 15]!];
      const small1 = turned(near, 17) ^ turned(near, 19) ^ (near >>> 10);
      const small0 = turned(far, 7) ^ turned(far, 18) ^ (far >>> 3);
      schedule[t] = (((small1 + schedule[t - 7]!) | 0) + ((small0 + schedule[t - 16]!) | 0)) | 0;
    }
    let a = state[0]!;
    let b = state[1]!;
    let c = state[2]!;
    let d = state[3]!;
    let e = state[4]!;
    let f = state[5]!;
    let g = state[6]!;
    let h = state[7]!;
    for (let t = 0; t < 64; t++) {
      const large1 = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25);
      const chosen = (((e & f) ^ (~e & g)) + large1) | 0;
      const first = (((ROUNDS[t]! + schedule[t]!) | 0) + ((h + chosen) | 0)) | 0; // whole numbers of 32 bits are quick
      const large0 = turned(a, 2) ^ turned(a, 13) ^ turned(a, 22);
      const second = (large0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      h = g;
      g = f;
      f = e;
      e = (d + first) | 0;
      d = c;
      c = b;
      b = a;
      a = (first + second) | 0;
    }
    state[0]! += a;
    state[1]! += b;
    state[2]! += c;
    state[3]! += d;
    state[4]! += e;
    state[5]! += f;
    state[6]! += g;
    state[7]! += h;
  }
}

const BLOCK = 64;

const PRIMES = Array.from({ length: 310 }, (_, i) => i + 2).filter((n) => {
  for (let of = 2; of * of <= n; of++) if (n % of === 0) return false;
  return true;
});

/** The first 32 bits of what stands behind the point. */
const fraction = (value: number) => Math.floor((value % 1) * 2 ** 32);

const ROUNDS = Int32Array.from(PRIMES.slice(0, 64), (prime) => fraction(Math.cbrt(prime)));

const turned = (word: number, bits: number) => (word >>> bits) | (word << (32 - bits));
