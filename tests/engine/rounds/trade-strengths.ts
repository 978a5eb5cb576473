/** Shifts of the gels that are sold, in mired: trade values, one table; no two makers’ are the same. Orange, then blue. */
export const tradeStrengthsMired = (): readonly number[] => [159, 109, 64, 26, -137, -78, -35, -18];
