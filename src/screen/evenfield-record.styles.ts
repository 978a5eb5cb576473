import { css } from 'lit';

/** One page of A4 or Letter: 186 mm wide and 255 mm high hold it on both, with the margins that page.css gives. */
export const recordStyles = css`
  :host {
    display: none;
  }
  @media print {
    :host {
      display: block;
      position: relative;
      width: 186mm;
      font-size: 8pt;
      line-height: 1.25;
      --verdict-size: 15pt;
      --large-size: 10pt;
      --text-size: 8pt;
      --small-size: 7pt;
    }
  }
  .head {
    display: flex;
    justify-content: space-between;
    gap: 4mm;
    margin: 0 0 2mm;
    padding-bottom: 1mm;
    border-bottom: 1px solid var(--ink);
  }
  .maps {
    display: grid;
    grid-template-columns: repeat(2, minmax(0, 1fr));
    gap: 2mm 6mm;
    margin-top: 3mm;
  }
  /* filled one after the other to the same height, whatever was read */
  .columns {
    columns: 2;
    column-gap: 6mm;
    margin-top: 1mm;
  }
  .columns section {
    break-inside: avoid;
  }
  evenfield-frame-picture {
    position: absolute;
    top: 7mm;
    right: 0;
    width: 40mm;
    print-color-adjust: exact;
  }
  evenfield-verdict {
    margin-right: 44mm; /* beside the picture */
  }
  /* two verdicts in the room of one */
  .aimed {
    --verdict-size: 12pt;
    --large-size: 8pt;
    --measure: none;
  }
  figure {
    margin: 0;
    break-inside: avoid;
  }
  figcaption {
    margin-top: 1mm;
    font-size: var(--small-size);
  }
  evenfield-map-drawing {
    width: var(--width);
    height: var(--height);
    print-color-adjust: exact;
  }
  h2 {
    margin: 2mm 0 1mm;
    padding-top: 1mm;
  }
  dl,
  p,
  ol {
    margin: 0 0 1.5mm;
  }
  .figure {
    display: flex;
    gap: 2mm;
  }
  .figure dt {
    flex: 0 0 36mm;
    color: var(--quiet-ink);
  }
  .figure dd {
    flex: 1;
    margin: 0;
  }
`;
