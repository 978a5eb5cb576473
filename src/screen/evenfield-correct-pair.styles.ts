import { css } from 'lit';

/** Two pictures beside each other, or above one another by hand-held size. */
export const correctPairStyles = css`
  .pair {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 1rem 1.5rem;
  }
  @container (min-width: 44rem) {
    .pair {
      grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    }
  }
  figure {
    display: flex;
    flex-direction: column;
    justify-content: flex-end;
    margin: 0;
  }
  figcaption {
    margin-bottom: 0.375rem;
  }
  .lost,
  .straight,
  .painting {
    margin: 0.75rem 0;
  }
  .painting {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1rem;
  }
  .straight {
    max-width: 110ch;
    line-height: 1.5;
  }
  evenfield-correct-sections {
    margin-top: 1rem;
  }
`;
