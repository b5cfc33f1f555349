/**
 * Random tests draw the same cases in every run, so that a run can be repeated and its coverage is no matter of luck.
 * Other cases: `SEED=7 npm test`; `npm run fuzz` draws new ones each time.
 */
import fc from 'fast-check';

fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: Number(process.env.SEED ?? 20261130) });
