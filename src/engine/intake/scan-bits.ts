/** The bits of one entropy-coded segment, most significant first, stuffed zero bytes passed over. */
export class ScanBits {
  private readonly bytes: Uint8Array;
  private at: number;
  private held = 0;
  private count = 0;

  constructor(bytes: Uint8Array, from: number) {
    this.bytes = bytes;
    this.at = from;
  }

  /** The next 16 bits without taking them; zeros past the segment's end, as decoders do. */
  peek16(): number {
    while (this.count < 16) {
      const byte = this.bytes[this.at];
      let value = 0;
      if (byte !== undefined && byte !== 0xff) {
        value = byte;
        this.at++;
      } else if (byte === 0xff && this.bytes[this.at + 1] === 0) {
        value = 0xff;
        this.at += 2;
      } // else a marker or the end: stay there
      this.held = ((this.held << 8) | value) & 0xffffff;
      this.count += 8;
    }
    return (this.held >> (this.count - 16)) & 0xffff;
  }

  skip(bits: number): void {
    this.count -= bits;
  }

  /** Takes up to 16 bits as an unsigned number. */
  take(bits: number): number {
    if (bits === 0) return 0;
    const value = this.peek16() >> (16 - bits);
    this.count -= bits;
    return value;
  }

  /** A difference of the given magnitude category. Source: ITU-T T.81 (1992), annex F.2.2.1, EXTEND. */
  takeSigned(bits: number): number {
    if (bits === 0) return 0;
    const value = this.take(bits);
    return value < 1 << (bits - 1) ? value - (1 << bits) + 1 : value;
  }

  /** Moves behind the next restart marker; false where another marker or the end comes first. */
  restart(): boolean {
    this.count = 0;
    while (this.at < this.bytes.length) {
      const here = this.bytes[this.at]!;
      const next = this.bytes[this.at + 1];
      if (here === 0xff && next !== undefined && next >= 0xd0 && next <= 0xd7) {
        this.at += 2;
        return true;
      }
      if (here === 0xff && next !== 0 && next !== 0xff) return false;
      this.at++;
    }
    return false;
  }
}
