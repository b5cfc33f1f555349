/** How soon V8 compiles for speed, set before anything runs. */
import { setFlagsFromString } from 'node:v8';

// Bytecode that a function runs before it is worth the optimizing compiler, three times the default: most code of a
// sweep runs for less than a second, and compiling it takes the cores from those that sweep and draw.
setFlagsFromString('--interrupt-budget=400000');
