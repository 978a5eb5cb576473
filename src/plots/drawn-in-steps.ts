/** A drawing that takes long: it stops between its steps, so that whoever draws may do something else meanwhile. */
export type DrawnInSteps<Drawing> = Generator<void, Drawing>;

/** The drawing in one go. */
export function drawnAtOnce<Drawing>(steps: DrawnInSteps<Drawing>): Drawing {
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}
