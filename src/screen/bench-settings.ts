import { property } from 'lit/decorators.js';
import type { Aim } from '../engine/aim.ts';
import { checkAim } from '../engine/check-aim.ts';
import { checkTolerance } from '../engine/check-tolerance.ts';
import type { Setup } from '../engine/setup.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { BenchJobs } from './bench-jobs.ts';
import type { BenchSession } from './bench-session.ts';

/** What takes are judged by, as properties of the element. */
export abstract class BenchSettings extends BenchJobs {
  protected abstract readonly session: BenchSession;

  /** How the light was arranged at the first take of a set-up. Assigning an equal one changes nothing. */
  @property({ attribute: false })
  get setup(): Setup {
    return this.session.setup;
  }
  set setup(setup: Setup) {
    void this.session.judgeBy({ setup });
  }

  /** What the frame is judged by. Assigning an equal one changes nothing. */
  @property({ attribute: false })
  get tolerance(): Tolerance {
    return this.session.tolerance;
  }
  set tolerance(tolerance: Tolerance) {
    checkTolerance(tolerance);
    void this.session.judgeBy({ tolerance });
  }

  /** What the background is to become. Assigning an equal one changes nothing. */
  @property({ attribute: false })
  get aim(): Aim {
    return this.session.aim;
  }
  set aim(aim: Aim) {
    checkAim(aim);
    void this.session.judgeBy({ aim });
  }
}
