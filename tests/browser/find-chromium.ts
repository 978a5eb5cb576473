import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { chromium } from '@playwright/test';

/** What the search asks of the machine; handed in, so that it can be tried without one. */
export interface MachineLookups {
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly platform: string;
  readonly isRoot: boolean;
  readonly exists: (path: string) => boolean;
  /** Where Playwright would keep its own browser. */
  readonly playwrightPath: () => string;
  /** Runs a command to its end; throws where it fails. */
  readonly run: (command: string, parameters: readonly string[]) => void;
  readonly say: (line: string) => void;
}

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];
const MAC_APPLICATIONS = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

/**
 * Finds a Chromium to test in: the one that EVENFIELD_CHROMIUM names, the system's, Playwright's own; else installs
 * one by Playwright's download, or as root on Debian as its package.
 *
 * @throws Error that says what was tried and what to do.
 */
export function findChromium(machine: MachineLookups = thisMachine()): string {
  const named = machine.environment.EVENFIELD_CHROMIUM;
  if (named !== undefined && named !== '') {
    if (machine.exists(named)) return named;
    throw new Error(`EVENFIELD_CHROMIUM names ${named}, where there is no file. Correct it or unset it.`);
  }
  return installedChromium(machine) ?? freshChromium(machine);
}

function installedChromium({ environment, platform, exists, playwrightPath }: MachineLookups): string | null {
  const folders = (environment.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  const candidates = [
    ...folders.flatMap((folder) => NAMES.map((name) => join(folder, name))),
    ...(platform === 'darwin' ? MAC_APPLICATIONS : []),
    playwrightPath(),
  ];
  return candidates.find((path) => path !== '' && exists(path)) ?? null;
}

function freshChromium(machine: MachineLookups): string {
  const { platform, isRoot, exists, run, say } = machine;
  const tried: string[] = [];
  const attempt = (what: string, ...commands: readonly (readonly string[])[]): string | null => {
    say(`No Chromium found; installing one: ${what}`);
    try {
      for (const [command, ...parameters] of commands) run(command!, parameters);
      return installedChromium(machine);
    } catch (error) {
      tried.push(`${what}: ${error instanceof Error ? error.message.split('\n')[0] : String(error)}`);
      return null;
    }
  };
  const isDebian = platform === 'linux' && exists('/usr/bin/apt-get');
  const found =
    attempt('npx playwright install chromium', ['npx', 'playwright', 'install', 'chromium']) ??
    (isDebian && isRoot
      ? attempt(
          'apt-get install chromium',
          ['apt-get', 'update'],
          ['apt-get', 'install', '--yes', '--no-install-recommends', 'chromium'],
        )
      : null);
  if (found !== null) return found;
  throw new Error(
    [
      'The browser tests need a Chromium, and none could be found or installed.',
      ...tried.map((line) => `  tried ${line}`),
      'Install Chromium or Chrome (Debian: "sudo apt-get install chromium"; macOS: into Applications),',
      'or set EVENFIELD_CHROMIUM to the path of one, and run the tests again.',
    ].join('\n'),
  );
}

function thisMachine(): MachineLookups {
  return {
    environment: process.env,
    platform: process.platform,
    isRoot: process.getuid?.() === 0,
    exists: existsSync,
    playwrightPath: () => chromium.executablePath(),
    run: (command, parameters) => {
      execFileSync(command, [...parameters], { stdio: ['ignore', 'ignore', 'pipe'], timeout: 600_000 });
    },
    say: (line) => console.log(line),
  };
}
