/** What the engine's worker fetches once a shoot is to be sorted. */
export { glanceAtFrame } from '../src/engine/glance-at-frame.ts';
export { sortShoot } from '../src/engine/sorting/sort-shoot.ts';
