import { css } from 'lit';

export const takesStyles = css`
  ul {
    margin: 0 0 1rem;
    padding-left: 1.25rem;
  }
  .older {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1rem;
  }
  /* The line, and beside it what was judged. */
  @container (min-width: 75rem) {
    :host {
      display: grid;
      grid-template-columns: minmax(0, 3fr) minmax(0, 2fr);
      gap: 0 2.5rem;
      align-items: start;
    }
    h2,
    p,
    ul,
    evenfield-deleted-take {
      grid-column: 1 / -1;
    }
  }
`;
