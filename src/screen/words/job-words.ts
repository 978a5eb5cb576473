import { JOB_LIMITS, JOB_SCHEMA, JobRefusal } from '../../takes/job-refusal.ts';
import { TAKE_SCHEMA } from '../../takes/take-shelf.ts';

/** Why a job is not opened, what was needed, and what to do. */
export function jobRefusalWords({ reason, schema }: Pick<JobRefusal, 'reason' | 'schema'>): string {
  switch (reason) {
    case 'other-schema':
      return `It was written by ${age(schema!, JOB_SCHEMA)} Evenfield: a job file of version ${schema}, and this one opens version ${JOB_SCHEMA}. Open it with that one.`;
    case 'other-takes':
      return `It was written by ${age(schema!, TAKE_SCHEMA)} Evenfield: its takes are of version ${schema}, and this one opens version ${TAKE_SCHEMA}. Open it with that one.`;
    case 'too-large':
      return `It is larger than any job that is saved here: over ${GB} GB unpacked, or ${MB} MB in one take. Ask for a job of fewer takes.`;
    case 'damaged':
    case 'unsound-take':
      return 'It is damaged: cut short, or changed on its way. Copy it anew from where it was saved.';
    case 'not-a-job':
      return 'It is packed as a saved job is, and is none. Choose a frame, or a job that was saved here.';
  }
}

const GB = JOB_LIMITS.bytes / 2 ** 30;
const MB = JOB_LIMITS.lineBytes / 2 ** 20;

/** Why a job is not saved. */
export function jobNotSavedWords(error: unknown): string {
  if (error instanceof JobRefusal && error.reason === 'too-large')
    return `The job was not saved: it would be larger than can be opened again, over ${GB} GB unpacked, or ${MB} MB in one take. Delete takes that are no longer needed, and save it again.`;
  if (error instanceof JobRefusal && error.reason === 'unsound-take')
    return `The job was not saved: take ${error.take} holds something that would not be opened again. Read its frame anew or delete it, and save the job again.`;
  return `The job could not be saved: ${error instanceof Error ? error.message : String(error)}`;
}

const age = (found: number, known: number) => (found > known ? 'a newer' : 'an older');

export const JOB_NOT_KEPT_WORDS =
  'The job was not opened: this browser has no room to keep it beside the takes of this page, or keeps nothing. Delete earlier shoots, or open it in a fresh page.';

export const JOB_WITHOUT_WORDS =
  'The whole job is one file that another machine opens: every take with its notes, moves and figures, the profile and the records. The picture files themselves are not in it: keep them beside it.';

export function jobSavingWords(takes: number): string {
  return `Putting ${takes} ${takes === 1 ? 'take' : 'takes'} into one file…`;
}

export function jobOpeningWords(name: string): string {
  return `Opening the job ${name}…`;
}
