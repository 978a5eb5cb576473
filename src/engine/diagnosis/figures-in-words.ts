import { kelvinAside, TOLD_AT_KELVIN } from '../kelvin-aside.ts';

/** The finest that a sentence tells, in stops; less is nobody's business, however sure it is. */
export const LEAST_TOLD_EV = 0.01;

/** "0.6 stop", "1.3 stops", and "0.08 stop" where a tenth would say too little. The sign is left out. */
export function stopsInWords(ev: number): string {
  const size = Math.abs(ev);
  const figure = size < 0.195 ? size.toFixed(2) : size.toFixed(1);
  return `${figure} ${Number(figure) > 1 ? 'stops' : 'stop'}`;
}

/**
 * "9 mired (about 290 K at 5500 K)". The sign picks the kelvin (a cooler light lies more kelvin away) and is left
 * out of the words; the kelvin is left out where no colour temperature lies that far off.
 */
export function miredInWords(mired: number): string {
  const size = Math.abs(mired);
  const figure = `${size < 0.95 ? size.toFixed(1) : size.toFixed(0)} mired`;
  const kelvin = kelvinAside(mired);
  return kelvin === null ? figure : `${figure} (about ${kelvin} K at ${TOLD_AT_KELVIN} K)`;
}

/** "3 %", "0.4 %", and "under 0.1 %". */
export function shareInWords(share: number): string {
  const percent = share * 100;
  if (percent < 0.1) return 'under 0.1 %';
  return percent < 2 ? `${percent.toFixed(1)} %` : `${percent.toFixed(0)} %`;
}
