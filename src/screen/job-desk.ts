import type { Aim } from '../engine/aim.ts';
import { EngineError } from '../engine/engine-error.ts';
import { fetchedPart } from '../engine/fetched-part.ts';
import type { Profile } from '../engine/profile/profile.ts';
import type { Tolerance } from '../engine/tolerance.ts';
import { downloadBlob } from '../sources/download-blob.ts';
import { ReadFailure } from '../sources/read-failure.ts';
import type { OpenedJob } from '../takes/job-of-takes.ts';
import { JOB_LIMITS, type JobLimits, JobRefusal, looksLikeJob } from '../takes/job-refusal.ts';
import type { MoveAnswers } from '../takes/move-answers.ts';
import { type FullTake, type HeldTake, isInFull, judgedAnew } from '../takes/take.ts';
import { ownTask } from './in-tasks.ts';
import type { KeptShoots } from './kept-shoots.ts';
import type { OpenedShoot } from './opened-shoot.ts';
import { savedName } from './save-json.ts';
import {
  JOB_NOT_KEPT_WORDS,
  jobNotSavedWords,
  jobOpeningWords,
  jobRefusalWords,
  jobSavingWords,
} from './words/job-words.ts';
import type { LengthUnit } from './words/length-words.ts';
import { recordFacts } from './words/record-facts.ts';

/** The page's shoot, as far as a job needs it. */
export interface JobSession {
  readonly takes: readonly HeldTake[];
  readonly tolerance: Tolerance;
  readonly aim: Aim;
  readonly answers: MoveAnswers;
  /** Stops every read under way. */
  cancel(): void;
  goOn(shoot: OpenedShoot): void;
  /** Shows a take; `null`: the newest. */
  show(id: string | null): Promise<void>;
  /** Shows and tells why a file was refused; `null`: that is over. */
  refuse(failure: ReadFailure | null): void;
}

const jobFiles = () =>
  fetchedPart('saves and opens whole jobs', async () => ({
    ...(await import('../takes/job-file.ts')),
    ...(await import('../takes/job-of-takes.ts')),
  }));

/** The whole job as one file: saved from the page, and opened from the files that are given to it. */
export class JobDesk {
  /** What came with the job that was opened, and goes with it again where no other is made. */
  private profile: Profile | null = null;

  constructor(
    private readonly session: JobSession,
    private readonly kept: Pick<KeptShoots, 'adopt' | 'reportOf'>,
    /** Told what is under way, in words; `null` where nothing is. */
    private readonly says: (words: string | null) => void,
    private readonly hand: (name: string, file: Blob) => void = downloadBlob,
    private readonly limits: JobLimits = JOB_LIMITS,
  ) {}

  /** Saves all takes of the page, with the profile that was made, if one was. */
  async save(profile: Profile | null, unit: LengthUnit): Promise<void> {
    const { session, kept, says } = this;
    const { takes, tolerance, aim, answers } = session;
    const newest = takes.at(-1);
    if (newest === undefined) return;
    says(jobSavingWords(takes.length));
    const fetched = async (take: HeldTake): Promise<FullTake> =>
      isInFull(take) ? take : judgedAnew(take, await kept.reportOf(take), take.judgedBy);
    const facts = { tolerance, aim, answers, profile: profile ?? this.profile };
    try {
      const { jobParts, writeJob } = await jobFiles();
      const parts = jobParts(takes, facts, (take) => recordFacts(take, takes, unit), fetched);
      this.hand(
        savedName(newest.reading.frame.name, 'job', 'jsonl.gz'),
        await writeJob(parts, ownTask, this.limits),
      );
    } catch (error) {
      session.refuse(new ReadFailure('cannot-write', jobNotSavedWords(error), null, error));
    } finally {
      says(null);
    }
  }

  /** The frames among files that were picked or dropped; a job among them is opened instead, whatever it is called. */
  async framesAmong(files: readonly File[]): Promise<readonly File[]> {
    // what can't be looked into is told as any other frame that can't be read
    for (const file of files)
      if (await looksLikeJob(file).catch(() => false)) {
        await this.open(file);
        return [];
      }
    return files;
  }

  private async open(file: File): Promise<void> {
    const { session, says } = this;
    says(jobOpeningWords(file.name));
    try {
      const { jobOfParts, readJob } = await jobFiles();
      await this.goOnWith(await jobOfParts(await readJob(file, ownTask)), file.name);
    } catch (error) {
      if (error instanceof EngineError)
        return session.refuse(new ReadFailure(error.code, error.message, file.name, error));
      if (!(error instanceof JobRefusal)) throw error;
      const isOther = error.reason === 'other-schema' || error.reason === 'other-takes';
      const code = isOther
        ? 'unsupported-file'
        : error.reason === 'too-large'
          ? 'too-large'
          : 'unreadable-file';
      session.refuse(new ReadFailure(code, jobRefusalWords(error), file.name, error));
    } finally {
      says(null);
    }
  }

  /** As a shoot of its own beside what is kept. Where nothing can be kept, on an empty page alone. */
  private async goOnWith(job: OpenedJob, fileName: string): Promise<void> {
    const { session, kept } = this;
    session.cancel();
    const opened = await kept.adopt(job.shoot, job.takes, session.takes.length === 0);
    if (opened === null) {
      session.refuse(new ReadFailure('storage-full', JOB_NOT_KEPT_WORDS, fileName));
      return;
    }
    this.profile = job.profile;
    session.refuse(null);
    session.goOn(opened);
    await session.show(null);
  }
}
