import { expect, test } from 'vitest';
import { VerdictSound, verdictTones } from '../../src/screen/verdict-sound.ts';

const YES = { even: 'yes', neutral: 'yes', exposed: 'yes' } as const;

test('verdictTones(verdict) rise where all is within the limits, and are low where anything is not', () => {
  const rising = verdictTones(YES).map(({ hertz }) => hertz);
  expect(rising).toHaveLength(2);
  expect(rising[1]).toBeGreaterThan(rising[0]!);
  const low = verdictTones({ ...YES, neutral: 'no' });
  const unsure = verdictTones({ ...YES, even: 'too-close-to-say' });
  expect([low.length, unsure.length]).toEqual([1, 1]);
  expect(low[0]!.hertz).toBeLessThan(unsure[0]!.hertz);
  expect(verdictTones({ even: 'too-close-to-say', neutral: 'no', exposed: 'yes' })).toEqual(low);
});

test('VerdictSound is silent until it was made ready by a press, and then plays each tone once', async () => {
  const played: string[] = [];
  const node = (name: string) => ({
    frequency: { value: 0 },
    gain: { setValueAtTime() {}, linearRampToValueAtTime() {} },
    connect: (next: unknown) => next,
    start(this: { frequency: { value: number } }, at: number) {
      played.push(`${name} ${this.frequency.value} at ${at}`);
    },
    stop() {},
  });
  let starts = 0;
  const sound = new VerdictSound(() => {
    starts++;
    return {
      currentTime: 10,
      destination: {},
      createOscillator: () => node('tone'),
      createGain: () => node('gain'),
      resume: async () => {},
    } as unknown as AudioContext;
  });
  sound.tell(YES);
  expect(played).toEqual([]);
  await sound.ready();
  await sound.ready();
  sound.tell(YES);
  expect(starts).toBe(1);
  expect(played).toEqual(['tone 660 at 10', 'tone 880 at 10.18']);
});
