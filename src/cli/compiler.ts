/** How soon V8 compiles for speed, set before anything runs. */
import { setFlagsFromString } from 'node:v8';

// Bytecode that a function runs before it is worth the optimizing compiler, three times the default: most code of a
// sweep runs for less than a second, and compiling it takes the cores from those that sweep and draw. From version 12
// on, V8 has a quick compiler in between, and no such setting.
if (Number.parseInt(process.versions.v8, 10) < 12) setFlagsFromString('--interrupt-budget=400000');
