/** For a second opinion: the formulas with this car's numbers, what a workshop looks for, what nobody checked. */
import type { Result } from '../../domain/result.ts';
import { AXLE_NAMES } from '../../domain/scenario.ts';
import { innerUnit } from '../../domain/units.ts';
import type { WorkingLine } from '../../domain/workingLine.ts';
import { type Build, buildsOf } from '../builds.ts';
import { count, inInner, PAGE, unitSymbol } from '../numbers.ts';
import { choiceOf, nameOf, quantityOf, wordOf } from '../read.ts';
import { type AssumedGroup, assumedGroups } from './assumed.ts';
import { type LookedForRow, lookedForRows } from './lookedFor.ts';
import { type HeightColumn, heightColumns } from './sheetHeights.ts';

export interface WorkshopView {
  readonly builds: readonly WorkshopBuild[];
  /** How many values were assumed; the list stands with what was given. */
  readonly assumed: string;
  readonly assumedGroups: readonly AssumedGroup[];
  /** A load on each side was given, front and rear. */
  readonly knowsSides: boolean;
}

export interface WorkshopBuild {
  readonly setups: readonly string[];
  /** The setup whose numbers stand in the formulas, and the id that brings those of any other. */
  readonly first: string;
  readonly ids: readonly string[];
  readonly formulas: readonly FormulaRow[];
  readonly columns: readonly HeightColumn[];
  readonly rows: readonly LookedForRow[];
  /** Sentences about formulas and measured curves used outside the range where they are known to hold. */
  readonly ranges: readonly string[];
  readonly asks: Asks;
}

export interface FormulaRow {
  readonly symbol: string;
  readonly label: string;
  /** In symbols; null where the value comes from elsewhere: then `how` says so. */
  readonly expression: string | null;
  readonly how: string;
  /** Front and rear, or one for both together. */
  readonly cells: readonly (FormulaCell | null)[];
  readonly isPair: boolean;
}

export interface FormulaCell {
  /** The formula with numbers put in. */
  readonly filled: string | null;
  readonly value: string;
  readonly unit: string;
}

/** What there is to ask: each question stands only where this build gives reason to. */
export interface Asks {
  readonly groove: boolean;
  readonly estimated: boolean;
  readonly tight: boolean;
  /** Axles without a force-velocity table. */
  readonly unknownDamping: readonly string[];
  readonly knownDamping: boolean;
  readonly rodEnds: boolean;
}

export function workshopView(result: Result): WorkshopView | null {
  const builds = buildsOf(result);
  if (builds.length === 0) return null;
  return {
    builds: builds.map(workshopBuild),
    assumed: count(result.assumptions.length, PAGE),
    assumedGroups: assumedGroups(result.assumptions),
    knowsSides: AXLE_NAMES.every((axle) => result.scenario.axles[axle].wheel_loads_kg !== undefined),
  };
}

function workshopBuild(build: Build): WorkshopBuild {
  const [first] = build.setups;
  return {
    setups: build.setups.map(({ setup }) => setup.name),
    first: first?.setup.name ?? '',
    ids: build.setups.map(({ combination }) => combination.id),
    formulas: formulaRows(build),
    columns: heightColumns(build),
    rows: lookedForRows(build),
    ranges: rangesOf(build),
    asks: asksOf(build),
  };
}

/** Lines of the first setup; one that only one axle has leaves the other's place empty. */
function formulaRows({ setups: [first] }: Build): FormulaRow[] {
  if (first === undefined) return [];
  const { axles, pair } = first.sheet.working;
  const symbols = [...new Set(AXLE_NAMES.flatMap((axle) => axles[axle].map(({ symbol }) => symbol)))];
  const place = (symbol: string) => {
    return Math.max(...AXLE_NAMES.map((axle) => axles[axle].findIndex((line) => line.symbol === symbol)));
  };
  const own = symbols
    .sort((a, b) => place(a) - place(b))
    .map((symbol) => {
      return formulaRow(AXLE_NAMES.map((axle) => axles[axle].find((line) => line.symbol === symbol)));
    });
  return [...own, ...pair.map((line) => formulaRow([line]))];
}

function formulaRow(lines: readonly (WorkingLine | undefined)[]): FormulaRow {
  const line = lines.find((one) => one !== undefined);
  return {
    symbol: line?.symbol ?? '',
    label: line?.label ?? '',
    expression: typeset(longest(lines.map((one) => one?.expression ?? null))),
    how: line?.source ?? '',
    cells: lines.map(cellOf),
    isPair: lines.length === 1,
  };
}

/** A helper makes a formula longer; the longer one holds for both. */
function longest(expressions: readonly (string | null)[]): string | null {
  return expressions.reduce((a, b) => ((b?.length ?? 0) > (a?.length ?? 0) ? b : a), null);
}

function cellOf(line: WorkingLine | undefined): FormulaCell | null {
  if (line === undefined) return null;
  if (line.value === null) return { filled: null, value: line.source, unit: '' };
  return {
    filled: typeset(line.filled),
    value: inInner(line.value, line.dimension, PAGE),
    unit: unitSymbol(innerUnit(line.dimension), PAGE),
  };
}

/** `k_d * MR^2` as a person writes it. */
function typeset(formula: string | null): string | null {
  if (formula === null) return null;
  return formula.replaceAll(' * ', ' · ').replaceAll('^2', '²').replaceAll('^3', '³').replaceAll(' - ', ' − ');
}

function rangesOf({ setups }: Build): string[] {
  const flags = setups.flatMap(({ combination: { axles, flags: own } }) => [
    ...AXLE_NAMES.flatMap((axle) => axles[axle].flags),
    ...own,
  ]);
  return [...new Set(flags.filter(({ topic }) => topic === 'range').map(({ message }) => message))];
}

function asksOf({ setups }: Build): Asks {
  const corners = setups.flatMap(({ combination }) => AXLE_NAMES.map((axle) => ({ axle, ...combination.axles[axle] })));
  const undamped = corners.filter(({ values }) => quantityOf(values, 'damping_ratio') === null);
  return {
    groove: corners.some(({ parts }) => choiceOf(parts.sleeve, 'groove_drop_mm') > 0),
    estimated: corners.some((corner) => wordOf(corner, 'solid_height_source') === 'estimated'),
    tight: corners.some(({ tight }) => tight.length > 0),
    unknownDamping: [...new Set(undamped.map(({ axle }) => axle))],
    knownDamping: undamped.length < corners.length,
    rodEnds: corners.some(({ parts }) => nameOf(parts.rodEnd) === null),
  };
}
