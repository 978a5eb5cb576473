import { css } from 'lit';

export const secondFrameStyles = css`
  :host {
    margin-bottom: 1.5rem;
    padding: 0.25rem 0;
  }
  :host([over]) {
    outline: 4px solid var(--ink);
    outline-offset: 4px;
  }
  .hint {
    margin: 0.25rem 0 0.75rem;
    line-height: 1.5;
  }
  .choose {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1rem;
  }
  ul {
    margin: 0.75rem 0 0;
    padding: 0;
    list-style: none;
  }
  li {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.25rem 1rem;
    margin-bottom: 0.5rem;
  }
  li span {
    min-width: 0;
    overflow-wrap: anywhere;
  }
`;
