import { css } from 'lit';

/** The switch above the map and the figures below it. */
export const mapStyles = css`
  .switch {
    display: flex;
    flex-wrap: wrap;
    gap: 0 1.25rem;
  }
  .switch label {
    display: inline-flex;
    align-items: center;
    gap: 0.375rem;
    min-height: 2.75rem;
  }
  .switch input {
    accent-color: var(--ink);
    width: 1.125rem;
    height: 1.125rem;
    margin: 0;
  }
  .spot {
    display: grid;
    margin: 0.75rem 0 0.25rem;
    font-weight: 600;
  }
  .spot span,
  .spot::after {
    grid-area: 1 / 1;
  }
  .spot::after {
    content: attr(data-longest); /* keeps its room: the page below must not jump while the spot moves */
    visibility: hidden;
  }
  .legends {
    display: grid;
  }
  .legends p {
    grid-area: 1 / 1;
    margin: 0;
  }
  .legends .other {
    visibility: hidden;
  }
  .part {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1rem;
  }
  .part p {
    flex: 1 1 16rem;
    margin: 0;
  }
`;
