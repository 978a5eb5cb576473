/** For tests of speed: another program at work can only lengthen a time, so a busy machine is given more tries. */
export const BUSY = { retry: 4 } as const;
