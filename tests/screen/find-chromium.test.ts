import { expect, test } from 'vitest';
import { findChromium, type MachineLookups } from '../browser/find-chromium.ts';

/** A machine on which only these files exist; commands run are noted, and may make a file appear or fail. */
function machine(files: string[], change: Partial<MachineLookups> = {}): MachineLookups & { ran: string[] } {
  const ran: string[] = [];
  return {
    environment: { PATH: '/usr/local/bin:/usr/bin' },
    platform: 'linux',
    isRoot: false,
    exists: (path) => files.includes(path),
    playwrightPath: () => '/cache/chromium/chrome',
    run: (command, parameters) => {
      ran.push([command, ...parameters].join(' '));
      throw new Error('no network');
    },
    say: () => {},
    ran,
    ...change,
  };
}

test('findChromium() takes the one that the environment names before any other', () => {
  const environment = { EVENFIELD_CHROMIUM: '/opt/mine', PATH: '/usr/bin' };
  expect(findChromium(machine(['/opt/mine', '/usr/bin/chromium'], { environment }))).toBe('/opt/mine');
});

test('findChromium() says so where the environment names a file that is not there', () => {
  const environment = { EVENFIELD_CHROMIUM: '/opt/gone', PATH: '/usr/bin' };
  expect(() => findChromium(machine(['/usr/bin/chromium'], { environment }))).toThrow(/\/opt\/gone/);
});

test('findChromium() looks through PATH, then the applications of macOS, then Playwright’s own', () => {
  expect(findChromium(machine(['/usr/bin/google-chrome', '/cache/chromium/chrome']))).toBe(
    '/usr/bin/google-chrome',
  );
  const mac = '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome';
  expect(findChromium(machine([mac, '/cache/chromium/chrome'], { platform: 'darwin' }))).toBe(mac);
  expect(findChromium(machine(['/cache/chromium/chrome']))).toBe('/cache/chromium/chrome');
});

test('findChromium() lets Playwright install one where there is none', () => {
  const files: string[] = [];
  const ran: string[] = [];
  const bare = machine(files, {
    run: (command, parameters) => {
      ran.push([command, ...parameters].join(' '));
      files.push('/cache/chromium/chrome');
    },
  });
  expect(findChromium(bare)).toBe('/cache/chromium/chrome');
  expect(ran).toEqual(['npx playwright install chromium']);
});

test('findChromium() falls back on Debian’s package as root only', () => {
  const files = ['/usr/bin/apt-get'];
  const debian = machine(files, {
    isRoot: true,
    run: (command, parameters) => {
      debian.ran.push([command, ...parameters].join(' '));
      if (command === 'npx') throw new Error('no network');
      if (parameters[0] === 'install') files.push('/usr/bin/chromium');
    },
  });
  expect(findChromium(debian)).toBe('/usr/bin/chromium');
  expect(debian.ran).toEqual([
    'npx playwright install chromium',
    'apt-get update',
    'apt-get install --yes --no-install-recommends chromium',
  ]);
  const other = machine(['/usr/bin/apt-get']);
  expect(() => findChromium(other)).toThrow(/EVENFIELD_CHROMIUM/);
  expect(other.ran).toEqual(['npx playwright install chromium']);
});
