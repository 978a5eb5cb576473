import { property, state } from 'lit/decorators.js';
import type { Aim } from '../engine/aim.ts';
import { checkAim } from '../engine/check-aim.ts';
import { checkSetup } from '../engine/check-setup.ts';
import { checkTolerance } from '../engine/check-tolerance.ts';
import type { Setup } from '../engine/setup.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { BenchJobs } from './bench-jobs.ts';
import type { BenchSession } from './bench-session.ts';
import type { GivenAnswer } from './evenfield-move-answer.ts';
import type { LengthUnit } from './words/length-words.ts';

/** What takes are judged by, as properties of the element, and what is answered and typed on the page. */
export abstract class BenchSettings extends BenchJobs {
  protected abstract readonly session: BenchSession;

  @state() protected unit: LengthUnit = 'cm';
  /** What was typed and not understood, and what was kept instead. */
  @state() protected slip: string | null = null;

  /** How the light was arranged at the first take of a set-up. Assigning an equal one changes nothing. */
  @property({ attribute: false })
  get setup(): Setup {
    return this.session.setup;
  }
  set setup(setup: Setup) {
    checkSetup(setup);
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

  protected readonly chooseUnit = (event: CustomEvent<LengthUnit>) => {
    this.unit = event.detail;
  };

  protected readonly tellSlip = (event: CustomEvent<string | null>) => {
    this.slip = event.detail;
  };

  protected readonly answered = ({ detail: { index, answer } }: CustomEvent<GivenAnswer>) => {
    this.slip = null;
    this.session.answer(index, answer);
  };
}
