import { css } from 'lit';

/** The sentence and the frames, beside them by what the light is followed; pictures and the button below. */
export const correctStyles = css`
  :host([over]) {
    outline: 4px solid var(--ink);
    outline-offset: 4px;
  }
  .how {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 1rem 2.5rem;
  }
  @container (min-width: 55rem) {
    .how {
      grid-template-columns: minmax(0, 3fr) minmax(0, 2fr);
    }
  }
  .trying {
    margin: 1.25rem 0 0.5rem;
    overflow-wrap: anywhere;
  }
  .doing {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.75rem 1rem;
    margin: 1rem 0;
  }
  .doing progress {
    flex: 1 1 10rem;
    max-width: 24rem;
    height: 0.5rem;
    accent-color: var(--ink);
  }
  .all {
    padding: 0.75rem 1.5rem;
    font-weight: 600;
  }
  .all[disabled] {
    border-color: var(--rule);
    color: var(--quiet-ink);
    cursor: default;
  }
  .all[disabled]:hover {
    background: none;
  }
  .summary {
    margin: 0;
    font-weight: 600;
    overflow-wrap: anywhere;
  }
`;
