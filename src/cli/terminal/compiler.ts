/** How V8 compiles, set before anything runs. */
import * as module from 'node:module';
import { setFlagsFromString } from 'node:v8';

// Bytecode that a function runs before it is worth the optimizing compiler, three times the default: most code of a
// sweep runs for less than a second, and compiling it takes the cores from those that sweep and draw. From version 12
// on, V8 has a quick compiler in between, and no such setting.
if (Number.parseInt(process.versions.v8, 10) < 12) setFlagsFromString('--interrupt-budget=400000');

// From version 22.1 on, Node can keep what it compiled for the next start, in the system's folder for temporary files.
// Where nothing can be written there it tells so in what it gives back, and compiles anew.
(module as { readonly enableCompileCache?: () => unknown }).enableCompileCache?.();
