import { css } from 'lit';

/** Names with their figures beside them; where both don't fit, the figure goes under its name. */
export const figureList = css`
  .figure {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    gap: 0 1rem;
  }
  .figure dt {
    flex: 0 0 8.5rem;
    color: var(--quiet-ink);
  }
  .figure dd {
    flex: 1 1 10rem;
    margin: 0;
  }
`;
