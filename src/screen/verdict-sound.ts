import type { Verdict } from '../engine/reading.ts';

/** Frequency in Hz, from when, and for how long, in seconds. */
export interface Tone {
  readonly hertz: number;
  readonly from: number;
  readonly seconds: number;
}

const HIGH = 880;
const MIDDLE = 660;
const LOW = 330;

/** Two rising tones for what is within the limits, one middle tone for what is too close to say, one low for the rest. */
export function verdictTones({ even, neutral, exposed }: Verdict): readonly Tone[] {
  const all = [even, neutral, exposed];
  if (all.every((each) => each === 'yes'))
    return [
      { hertz: MIDDLE, from: 0, seconds: 0.15 },
      { hertz: HIGH, from: 0.18, seconds: 0.25 },
    ];
  if (all.includes('no')) return [{ hertz: LOW, from: 0, seconds: 0.3 }];
  return [{ hertz: MIDDLE, from: 0, seconds: 0.25 }];
}

/** What tones are played by; browsers let it begin only when somebody has pressed something. */
type Player = Pick<
  AudioContext,
  'currentTime' | 'createOscillator' | 'createGain' | 'destination' | 'resume'
>;

/** Tells a verdict by sound, for whoever stands at the lights. */
export class VerdictSound {
  private player: Player | null = null;

  constructor(private readonly start: () => Player = () => new AudioContext()) {}

  /** To be called by a press of a control. */
  async ready(): Promise<void> {
    this.player ??= this.start();
    await this.player.resume();
  }

  tell(verdict: Verdict): void {
    const { player } = this;
    if (player === null) return;
    for (const { hertz, from, seconds } of verdictTones(verdict)) {
      const begins = player.currentTime + from;
      const tone = player.createOscillator();
      const volume = player.createGain();
      tone.frequency.value = hertz;
      volume.gain.setValueAtTime(0, begins);
      volume.gain.linearRampToValueAtTime(0.2, begins + 0.02); // without a click
      volume.gain.setValueAtTime(0.2, begins + seconds - 0.05);
      volume.gain.linearRampToValueAtTime(0, begins + seconds);
      tone.connect(volume).connect(player.destination);
      tone.start(begins);
      tone.stop(begins + seconds);
    }
  }
}
