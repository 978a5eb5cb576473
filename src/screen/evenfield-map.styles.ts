import { css } from 'lit';

/** Places the map, its sections along the bottom and right edge, and the switch above. */
export const mapStyles = css`
  .switch {
    display: flex;
    gap: 1.25rem;
    margin-bottom: 0.5rem;
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
  .sheet {
    display: grid;
    grid-template-columns: var(--map-width) auto;
    gap: 8px;
    justify-content: start;
  }
  .pointing {
    cursor: crosshair;
    touch-action: pan-y;
  }
  evenfield-map-drawing {
    width: var(--map-width);
    height: var(--map-height);
  }
  .spot {
    margin: 0.5rem 0 0.25rem;
    font-weight: 600;
  }
`;
