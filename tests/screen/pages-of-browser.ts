import { KeptShoots } from '../../src/screen/kept-shoots.ts';
import { ShelfInMemory } from '../takes/shelf-in-memory.ts';

/** Pages of one browser: each claims what nobody has, as a browser's locks do: not even the same page twice. */
export function pagesOfBrowser(pause = async () => {}) {
  const shelf = new ShelfInMemory();
  const claims = new Map<string, object>();
  let ids = 0;
  let now = 0;
  const page = () => {
    const its = {};
    const claim = async (name: string) => {
      if (claims.has(name)) return false;
      claims.set(name, its);
      return true;
    };
    const kept = new KeptShoots({
      shelf,
      claim,
      newId: () => `s${++ids}`,
      now: () => ++now,
      pause,
    });
    const close = () => {
      for (const [name, owner] of claims) if (owner === its) claims.delete(name);
    };
    return { kept, close };
  };
  return { shelf, page };
}
