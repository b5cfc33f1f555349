/**
 * Visits every combination of an axle that works in all of the given setups, assembly by assembly, on the kernel's
 * columns: one workspace a setup, all with the same options. What fails in one setup is not tried in the next, and
 * nothing is allocated for a single combination.
 */
import { bodySlop } from '../../model/corner/fit.ts';
import { type Geometry, geometryOf } from '../../model/corner/geometry.ts';
import type { Corner } from '../../model/corner/site.ts';
import type { Steps } from '../../model/steps.ts';
import { newSleeveGroup } from '../bounds.ts';
import { mostTravelFirst } from '../kernel.ts';
import { assemblyCorner } from '../layout.ts';
import { PASS } from '../tally.ts';
import { assemblyFits, enterAssembly, fillLate, verdictOn } from '../verdict.ts';
import {
  type Batch,
  fitMask,
  newBatch,
  perchGroups,
  placesOn,
  sleeveGroups,
  sleeveTest,
  type Workspace,
} from '../workspace.ts';

export interface Visitor {
  /** A new assembly, or new sleeves or perches of it: one batch a workspace. */
  begin(batches: readonly Batch[]): void;
  visit(batches: readonly Batch[], sleeve: number, perch: number, stack: number): void;
}

export function* visitWorkable(workspaces: readonly [Workspace, ...Workspace[]], visitor: Visitor): Steps<void> {
  const { layout } = workspaces[0];
  const order = mostTravelFirst(layout, 0, layout.assemblies);
  for (const [done, number] of order.entries()) {
    yield { what: `parts shared between setups, ${layout.site.axle}`, done, of: order.length };
    const corner = assemblyCorner(layout, number);
    for (const sleeves of sleeveGroups(workspaces[0], corner)) {
      visitSleeves(workspaces, visitor, number, corner, sleeves);
    }
  }
}

function visitSleeves(
  workspaces: readonly [Workspace, ...Workspace[]],
  visitor: Visitor,
  number: number,
  first: Corner,
  sleeves: readonly number[],
): void {
  const { layout } = workspaces[0];
  const corner = { ...first, sleeve: layout.sleeves[sleeves[0] as number] as Corner['sleeve'] };
  const geometries = workspaces.map((workspace) => geometryOf(workspace.layout.site, corner));
  if (!workspaces.every((workspace, s) => assemblyFits(workspace.layout, corner, geometries[s] as Geometry))) return;
  const groups = workspaces.map((workspace, s) => {
    const assembly = enterAssembly(workspace.layout, workspace.columns, corner, geometries[s] as Geometry);
    return newSleeveGroup(workspace, number, assembly, sleeves);
  });
  for (const { engagement, numbers } of perchGroups(layout)) {
    const batches = groups.map((group) => newBatch(group, numbers, engagement));
    for (const { workspace, assembly } of batches) {
      fillLate(workspace.layout, workspace.columns, assembly, engagement);
    }
    const stacks = openStacks(workspaces);
    if (stacks.length === 0) continue;
    visitor.begin(batches);
    for (const sleeve of sleeves) visitSleeve(batches, visitor, stacks, sleeve);
  }
}

/** Stacks that nothing but sleeve and perch could still reject in any setup. */
function openStacks(workspaces: readonly [Workspace, ...Workspace[]]): Int32Array {
  const { live, layout } = workspaces[0];
  let count = 0;
  for (let stack = 0; stack < layout.stacks.count; stack++) {
    const isOpen = workspaces.every(({ columns }) => columns.early[stack] === PASS && columns.late[stack] === PASS);
    if (isOpen) live[count++] = stack;
  }
  return live.subarray(0, count);
}

function visitSleeve(batches: readonly Batch[], visitor: Visitor, stacks: Int32Array, sleeve: number): void {
  const { workspace, assembly, perches } = batches[0] as Batch;
  const { damper } = assembly.corner;
  if (!(bodySlop(workspace.layout.sleeves[sleeve] as Corner['sleeve'], damper) >= 0)) return;
  const tests = batches.map((batch) => sleeveTest(batch.workspace, batch.assembly, sleeve));
  // Where all stacks share their full bump, one answer stands for all.
  if (batches.some((batch, s) => batch.assembly.uniform && !(tests[s] as (stack: number) => boolean)(0))) return;
  for (const perch of perches) {
    // Fit and the perch's places know no setup: margins are the scenario's.
    const { fitting, none } = fitMask(workspace, sleeve, perch);
    if (none) continue;
    const places = placesOn(workspace, sleeve, perch);
    for (const stack of stacks) {
      if (worksInAll(stack, fitting[stack] === 1)) visitor.visit(batches, sleeve, perch, stack);
    }

    function worksInAll(stack: number, fits: boolean): boolean {
      for (let s = 0; s < batches.length; s++) {
        const { columns } = (batches[s] as Batch).workspace;
        if (verdictOn(columns, stack, fits, tests[s] as (stack: number) => boolean, places) !== PASS) return false;
      }
      return true;
    }
  }
}
