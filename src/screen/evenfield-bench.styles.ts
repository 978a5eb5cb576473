import { css } from 'lit';

export const benchStyles = css`
  :host {
    background: var(--ground);
  }
  .page {
    container-type: inline-size; /* the parts are laid out by its width in lines of text, whatever the text's size */
    max-width: 90rem;
    min-height: var(--least-height, 0);
    margin: 0 auto;
    padding: 1.5rem clamp(0.5rem, 4vw, 3.5rem) 3rem;
  }
  .over {
    outline: 4px solid var(--ink);
    outline-offset: -4px;
  }
  evenfield-setup-sentence {
    margin: 1rem 0 1.5rem;
  }
  evenfield-samples {
    margin-top: 2rem;
  }
  @media print {
    .page {
      min-height: 0;
      max-width: none;
      padding: 0;
    }
    .page > :not(evenfield-report) {
      display: none;
    }
  }
`;
