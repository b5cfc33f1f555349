/** Time limits of tests, ms. */
import { measuredCopy } from '../cover/copy.ts';

/** While coverage is measured, counting takes its own time. */
export const within = (milliseconds: number): number => (measuredCopy() === null ? 1 : 3) * milliseconds;
