import { css } from 'lit';

export const sortStyles = css`
  .line {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1rem;
    margin-bottom: 0.5rem;
    line-height: 1.5;
  }
  .line > span {
    flex: 1 1 20rem;
    overflow-wrap: anywhere;
  }
  .small {
    line-height: 1.5;
  }
  .frames {
    max-height: 32rem;
    overflow: auto;
    margin-bottom: 1rem;
    border-bottom: 1px solid var(--rule);
  }
  table {
    width: 100%;
    border-collapse: collapse;
  }
  th,
  td {
    padding: 0.25rem 0.75rem 0.25rem 0;
    border-bottom: 1px solid var(--faint-rule);
    text-align: start;
    font-weight: inherit;
    vertical-align: middle;
  }
  thead th {
    position: sticky;
    top: 0;
    background: var(--ground);
  }
  tbody th > div {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.25rem 0.75rem;
  }
  tbody select {
    white-space: nowrap;
  }
  .chosen .name {
    font-weight: 700;
  }
  .name {
    overflow-wrap: anywhere;
  }
  progress {
    width: min(100%, 24rem);
  }
`;
