import { css } from 'lit';

export const compareStyles = css`
  .sheet {
    display: grid;
    gap: 1rem 2.5rem;
    align-items: start;
    margin-top: 0.75rem;
  }
  evenfield-map-drawing {
    width: var(--width);
    height: var(--height);
    margin-bottom: 0.5rem;
  }
  summary {
    min-height: 2.75rem;
    display: list-item;
    padding-block: 0.5rem;
  }
  .refused {
    line-height: 1.5;
    margin-top: 0.5rem;
  }
  .legend {
    line-height: 1.5;
    max-width: 70ch;
  }
  @container (min-width: 55rem) {
    .sheet {
      grid-template-columns: auto minmax(0, 1fr);
    }
    .figure dt {
      flex-basis: 10.5rem;
    }
    .legend {
      grid-column: 1 / -1;
    }
  }
`;
