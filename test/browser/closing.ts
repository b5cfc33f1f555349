/** Run beside each file of browser tests: what it opened is closed after its last test. */
import { afterAll } from 'vitest';
import { closePages } from './harness.ts';

afterAll(closePages);
