import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { createInterface } from 'node:readline';

export type NativeTool = 'libjpeg-turbo' | 'opencv' | 'libvips' | 'libraw';

export interface NativeTime {
  readonly ms: number;
  readonly parts?: Readonly<Record<string, number>>;
}

const HOW_TO_INSTALL =
  'on Debian or Ubuntu: apt-get install python3-opencv libjpeg-turbo-progs libvips-tools libraw-bin';

/**
 * Native libraries to be timed against, in one Python process that stays, so that no start of a process is timed. Each
 * that is not installed is left out.
 */
export class NativeTools {
  private readonly process: ChildProcess | null;
  private readonly answers: AsyncIterator<string> | null;
  private installed: readonly NativeTool[] = [];

  private constructor(python: string | null) {
    this.process = python
      ? spawn(python, ['tests/bench/speed/native_tools.py'], { stdio: ['pipe', 'pipe', 'inherit'] })
      : null;
    this.answers = this.process && createInterface({ input: this.process.stdout! })[Symbol.asyncIterator]();
  }

  static async start(): Promise<NativeTools> {
    const tools = new NativeTools(pythonWith('cv2') ?? pythonWith('numpy'));
    if (tools.process) tools.installed = ((await tools.ask({ do: 'have' })) as { tools: NativeTool[] }).tools;
    const all: readonly NativeTool[] = ['libjpeg-turbo', 'opencv', 'libvips', 'libraw'];
    const missing = all.filter((tool) => !tools.has(tool));
    if (missing.length > 0) console.log(`skipped: ${missing.join(', ')} not installed; ${HOW_TO_INSTALL}`);
    return tools;
  }

  has(tool: NativeTool): boolean {
    return this.installed.includes(tool);
  }

  /** Milliseconds that a tool takes for a file. @throws Error where it can't do it. */
  async time(tool: NativeTool | 'correct', path: string, more: object = {}): Promise<NativeTime> {
    return (await this.ask({ do: tool, path, ...more })) as NativeTime;
  }

  stop(): void {
    this.process?.stdin?.end();
  }

  private async ask(request: object): Promise<object> {
    this.process!.stdin!.write(`${JSON.stringify(request)}\n`);
    const { value, done } = await this.answers!.next();
    if (done) throw new Error('the process with the native tools ended');
    const answer = JSON.parse(value) as { error?: string };
    if (answer.error) throw new Error(answer.error);
    return answer;
  }
}

/** Another Python than the system's may come first and know nothing of the system's packages. */
function pythonWith(module: string): string | null {
  const found = ['python3', '/usr/bin/python3', 'python'].find(
    (python) => spawnSync(python, ['-c', `import ${module}`]).status === 0,
  );
  return found ?? null;
}
