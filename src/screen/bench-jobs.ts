import { LitElement } from 'lit';
import { EngineClient } from '../../workers/engine-client.ts';
import type { Profile } from '../engine/profile/profile.ts';
import type { BracketOptions } from '../engine/read-bracket.ts';
import type { CameraResponse } from '../engine/response/camera-response.ts';
import type { OneSource } from '../sources/open-source.ts';
import { claimForPage } from '../sources/page-claim.ts';
import { RememberedFolder } from '../sources/remembered-folder.ts';
import { bytesLeft, keepForGood } from '../sources/storage-room.ts';
import { NamedShelf } from '../takes/named-shelf.ts';
import { DatabaseShelf } from '../takes/take-shelf.ts';
import { BenchBracket } from './bench-bracket.ts';
import { BenchCorrection } from './bench-correction.ts';
import type { BenchCorrectOptions } from './bench-element.ts';
import { toldByEvents } from './bench-events.ts';
import { PlaceOnPage } from './benches-on-page.ts';
import { KeptShoots } from './kept-shoots.ts';

/** What the element does beside reading: single jobs, each in a worker of its own, and the shoots that are kept. */
export abstract class BenchJobs extends LitElement {
  protected readonly told = { ...toldByEvents(this), changed: () => this.requestUpdate() };
  private readonly correction = new BenchCorrection(() => new EngineClient(), this.told);
  private readonly place = new PlaceOnPage(this);
  protected readonly keptShoots = new KeptShoots({
    shelf: new NamedShelf(
      () => this.place.shelf,
      (name) => new DatabaseShelf(name),
    ),
    ...{ claim: claimForPage, bytesLeft, keepForGood },
  });
  protected readonly folderMemory = new RememberedFolder(() => this.place.shelf);
  private readonly bracket = new BenchBracket(() => new EngineClient(), this.told);

  override disconnectedCallback(): void {
    this.correction.dispose();
    this.bracket.cancel();
    super.disconnectedCallback();
  }

  /** Corrects one frame. @throws {@link ReadFailure}; RangeError for a wish that can't be met. */
  async correct(source: OneSource, profile: Profile, options?: BenchCorrectOptions): Promise<Blob> {
    return (await this.correction.correct(source, profile, options)).blob;
  }

  /**
   * Recovers a camera's response from three or more frames that differ in exposure alone: by their shutter times, or
   * by `stops`, one number for each frame in their order.
   *
   * @throws {@link ReadFailure}; RangeError for a wish that can't be met.
   */
  readBracket(sources: readonly OneSource[], options?: BracketOptions): Promise<CameraResponse> {
    return this.bracket.read(sources, options);
  }
}
