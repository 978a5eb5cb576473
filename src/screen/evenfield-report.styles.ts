import { css } from 'lit';

/** One column by hand-held size, in the order of use; three fifths for the map where there is room. */
export const reportStyles = css`
  @media screen {
    .columns {
      display: grid;
    }
  }
  .columns {
    grid-template-columns: minmax(0, 1fr);
    gap: 1.5rem 2.5rem;
    margin-top: 1.5rem;
  }
  /* On paper the record stands in its place. */
  @media print {
    .on-screen,
    .columns {
      display: none;
    }
  }
  evenfield-findings {
    margin-bottom: 1.5rem;
  }
  @container (min-width: 55rem) {
    .columns {
      grid-template-columns: minmax(0, 3fr) minmax(0, 2fr);
      grid-template-areas:
        'map plan'
        'map moves'
        'cast moves'
        'found moves'
        'takes moves'
        'exposure exposure'
        'response response'
        'correct correct'
        'save save';
      grid-template-rows: auto auto auto auto 1fr auto auto auto auto;
    }
    evenfield-plan {
      grid-area: plan;
    }
    .map {
      grid-area: map;
    }
    evenfield-moves {
      grid-area: moves;
    }
    evenfield-cast {
      grid-area: cast;
    }
    .found {
      grid-area: found;
    }
    .takes {
      grid-area: takes;
    }
    evenfield-exposure {
      grid-area: exposure;
    }
    evenfield-response,
    .foot {
      grid-area: response;
    }
    evenfield-correct {
      grid-area: correct;
    }
    evenfield-save {
      grid-area: save;
    }
  }
  /* The cast, and beside it what was found. */
  @container (min-width: 75rem) {
    .columns {
      grid-template-columns: minmax(0, 3fr) minmax(0, 3fr) minmax(0, 4fr);
      grid-template-areas:
        'map map plan'
        'map map moves'
        'cast found moves'
        'takes takes takes'
        'exposure exposure exposure'
        'response response response'
        'correct correct correct'
        'save save save';
      grid-template-rows: auto auto 1fr;
    }
  }
`;
