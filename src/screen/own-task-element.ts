import { LitElement } from 'lit';
import { quietTask } from './in-tasks.ts';

/**
 * An element that is drawn in a task of its own: many that are drawn for one reading would otherwise keep the page from
 * answering for as long as all of them take together.
 */
export abstract class OwnTaskElement extends LitElement {
  protected override async scheduleUpdate(): Promise<void> {
    await quietTask();
    super.scheduleUpdate();
  }
}
