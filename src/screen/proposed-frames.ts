/** Frames that are proposed for correction, to be handed over once: whoever is drawn anew is not to get them again. */
export class ProposedFrames {
  constructor(private files: readonly File[]) {}

  handOver(): readonly File[] {
    const { files } = this;
    this.files = [];
    return files;
  }
}
