/**
 * What the sweep costs, one JSON line a measure. Speeds on shared machines drift, so what counts are the ratios of
 * measures taken in turn within this run, not the seconds.
 */
import '../../src/cli/terminal/compiler.ts';
import { execFile, spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { isDeepStrictEqual, promisify } from 'node:util';
import { firstFailure } from '../../src/model/corner/findings.ts';
import { combinationCount, cornerAt } from '../../src/model/corner/options.ts';
import type { Candidate } from '../../src/model/corner/score.ts';
import { cornerState } from '../../src/model/corner/state.ts';
import type { AxleOptions, Scenario } from '../../src/model/scenario.ts';
import { finish } from '../../src/model/steps.ts';
import { resultFrom, type Written } from '../../src/report/embed.ts';
import { sweepBrute } from '../../src/sweep/brute.ts';
import { pairUp, type Side } from '../../src/sweep/join.ts';
import { sweepKernel } from '../../src/sweep/kernel.ts';
import type { AxleLayout } from '../../src/sweep/layout.ts';
import { type SetupOutcome, sizesOf, sweepScenario } from '../../src/sweep/outcome.ts';
import { boughtAlike, buildCorners, type SweepWhole } from '../../src/sweep/policy.ts';
import { sweepAll } from '../../src/sweep/sweep.ts';
import { totals } from '../../src/sweep/tally.ts';
import { formPage } from './form.ts';
import { plainLoop } from './plain.ts';
import { billion, billionAnAxle, catalogue, demo, frontLayout, HUNDRED_MILLION, scaled } from './shapes.ts';

/** Run from the project's own folder. */
const ROOT = process.cwd();
const SELF = fileURLToPath(import.meta.url);

function say(record: Record<string, unknown>): void {
  process.stdout.write(`${JSON.stringify(record)}\n`);
}

function seconds(work: () => unknown): number {
  const start = performance.now();
  work();
  return (performance.now() - start) / 1000;
}

const median = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1] as number;
const perSecond = (count: number, time: number) => Math.round(count / time);
const ratio = (value: number) => Math.round(value * 100) / 100;

function scalarSpeed(layout: AxleLayout): void {
  const { options, site } = layout;
  const stride = Math.floor(combinationCount(options) / 200_000);
  const time = seconds(() => {
    for (let k = 0; k < 200_000; k++) firstFailure(cornerState(site, cornerAt(options, k * stride)));
  });
  say({ measure: 'scalar model', combinations_per_s: perSecond(200_000, time) });
}

/** Kernel and plain loop in turn on the same heads; their counts must agree. */
function kernelAgainstPlain(name: string, layout: AxleLayout, rounds: number): void {
  const size = layout.assemblies * layout.assemblySize;
  const pairs = Array.from({ length: rounds }, () => {
    let counts = new Float64Array();
    let kernelCounts: number[] = [];
    const plain = seconds(() => {
      counts = plainLoop(layout, 0, layout.assemblies) as Float64Array<ArrayBuffer>;
    });
    const kernel = seconds(() => {
      kernelCounts = totals(sweepKernel(layout, 0, layout.assemblies).tally);
    });
    if (counts.some((count, k) => count !== kernelCounts[k])) throw new Error(`${name}: the counts differ`);
    return { plain, kernel };
  });
  const plain = median(pairs.map((p) => p.plain));
  const kernel = median(pairs.map((p) => p.kernel));
  say({
    measure: `kernel against plain loop, ${name}`,
    combinations: size,
    plain_per_s: perSecond(size, plain),
    kernel_per_s: perSecond(size, kernel),
    kernel_over_plain: ratio(median(pairs.map((p) => p.plain / p.kernel))),
  });
}

/** Purchases measured before they are cut: the kernel against the scalar model on the same cars; what they choose must agree. */
function policyAgainstScalar(scenario: Scenario): void {
  const CARS = 6;
  const [outcome] = sweepScenario(scenario) as [SetupOutcome];
  const wanted = outcome.axles.front.candidates.map(({ index }) => index);
  const { options } = scenario.axles.front;
  const cuts = boughtAlike(options, wanted).reduce((sum, purchases) => sum + combinationCount(purchases.options), 0);
  const built = (sweep?: SweepWhole) => finish(buildCorners(scenario, outcome.setup, 'front', wanted, CARS, sweep));
  let found: unknown;
  let judged: unknown;
  const kernel = seconds(() => {
    found = built();
  });
  const scalar = seconds(() => {
    judged = built((layout) => sweepBrute(layout, 0, layout.assemblies * layout.assemblySize));
  });
  if (!isDeepStrictEqual(found, judged)) throw new Error('measured before it is cut: the builds differ');
  say({
    measure: 'measured before it is cut, kernel against scalar model',
    cars_times_cuts: CARS * cuts,
    kernel_per_s: perSecond(CARS * cuts, kernel),
    kernel_over_scalar: ratio(scalar / kernel),
  });
}

/** The demo's shape with limits so wide that every combination works. */
function passingLayout(scenario: Scenario, options: AxleOptions): AxleLayout {
  const layout = frontLayout(scenario, options);
  const { target, margins } = layout.site;
  const coilBind = { kind: 'fixed', value: -1e3 } as const;
  const wide = { coilBind, damper: -1e3, sleeve: -1e3, body: -1e3, tyre: -1e3, passing: margins.passing };
  const easy = {
    leastBumpTravel: -1e3,
    leastDroopTravel: -1e3,
    allowedSlack: 1e3,
    frequencyFrom: 0.1,
    frequencyTo: 99,
  };
  const perch = options.perch.map((p) => ({ ...p, height: -1e3, inset: -1e3, engagement: 1e3 }));
  const site = { ...layout.site, margins: wide, target: { ...target, ...easy } };
  const stacks = { ...layout.stacks, bindMargin: layout.stacks.bindMargin.map(() => coilBind.value) };
  return { ...layout, site, stacks, options: { ...options, perch }, perches: perch };
}

/** Scenarios to be swept on threads, by name: another process is told which. */
const LARGE = {
  'a billion': billion,
  'a billion an axle, whole demo': billionAnAxle,
} as const;
type LargeName = keyof typeof LARGE;

/** Seconds to sweep all of it and join front and rear. */
async function sweepSeconds(large: Scenario, workers: number): Promise<number> {
  const start = performance.now();
  await sweepAll(large, { workers, onProgress: null, signal: null });
  return (performance.now() - start) / 1000;
}

/**
 * One worker and two, in turn. What two could give at most is measured, too: two processes that each sweep the whole on
 * one worker, at the same time, against one of them alone.
 */
async function threads(name: LargeName, rounds: number): Promise<void> {
  const large = LARGE[name](scenario);
  const triples = [];
  for (let k = 0; k < rounds; k++) {
    const one = await sweepSeconds(large, 1);
    const two = await sweepSeconds(large, 2);
    const apart = await Promise.all([sweepApart(name), sweepApart(name)]);
    triples.push({ one, two, apart: Math.max(...apart) });
  }
  say({
    measure: `${name}, on worker threads`,
    combinations: sizesOf(large).judged,
    one_worker_s: ratio(median(triples.map((t) => t.one))),
    two_workers_s: ratio(median(triples.map((t) => t.two))),
    two_over_one: ratio(median(triples.map((t) => t.one / t.two))),
    two_processes_at_once_over_one: ratio(median(triples.map((t) => (2 * t.one) / t.apart))),
    peak_resident_mb: Math.round(process.resourceUsage().maxRSS / 1024),
  });
}

/** The same sweep on one worker of another process, which says how long it took. */
async function sweepApart(name: LargeName): Promise<number> {
  const { stdout } = await promisify(execFile)(process.execPath, [SELF, name], { cwd: ROOT });
  return Number(stdout);
}

/** 100,000 candidates a side, all of different stacks. */
function pairing(scenario: Scenario): void {
  const random = (k: number) => Math.abs(Math.sin(k * 12.9898) * 43758.5453) % 1;
  const side = (seed: number): Side => {
    const candidates = Array.from({ length: 100_000 }, (_, index): Candidate => {
      const logScore = -Math.round(2 ** 40 * 4 * random(seed + index)) / 2 ** 40;
      return { index, frequency: 1.3 + random(seed + index + 0.5), price: null, logScore };
    });
    return { candidates, stacks: 100_000, frequencies: new Map(candidates.map((c) => [c.frequency, 1])) };
  };
  const [setup] = scenario.setups;
  if (!setup) return;
  const [front, rear] = [side(1), side(777)];
  const time = seconds(() => pairUp(front, rear, setup, { ...scenario.ranking, price: null }));
  say({ measure: 'pairing 100,000 x 100,000', seconds: ratio(time) });
}

/** The demo from start to finished report, against only starting, loading the libraries and drawing its page. */
function startToReport(): void {
  const main = join(ROOT, 'dist/cli/main.js');
  if (!existsSync(main)) throw new Error('build first: npm run build');
  const out = join(tmpdir(), 'springsift-bench');
  const node = (...args: string[]) => seconds(() => runNode(args));
  const demoRun = () => node(main, 'sweep', 'scenarios/hill-hatch/scenario.yaml', '--out', out, '--force');
  const finished = join(out, 'finished.json');
  const floorRun = () => node(join(ROOT, 'test/bench/floor.mjs'), finished);
  demoRun();
  const written = JSON.parse(readFileSync(join(out, 'results.json'), 'utf8')) as Written;
  writeFileSync(finished, JSON.stringify(resultFrom(written)));
  const pairs = Array.from({ length: 5 }, () => ({ demo: demoRun(), floor: floorRun() }));
  say({
    measure: 'demo, start to report',
    demo_s: ratio(median(pairs.map((p) => p.demo))),
    floor_s: ratio(median(pairs.map((p) => p.floor))),
    demo_over_floor: ratio(median(pairs.map((p) => p.demo / p.floor))),
  });
}

/** Error: it failed, so that nothing is taken for fast that did not run. */
function runNode(args: readonly string[]): void {
  const { status, stderr } = spawnSync(process.execPath, args, { cwd: ROOT, stdio: ['ignore', 'ignore', 'pipe'] });
  if (status !== 0) throw new Error(`node ${args.join(' ')} ended with ${status}:\n${stderr}`);
}

/** The demo car with longer and longer catalogues, start to report: how cost grows with the number of springs. */
function growth(): void {
  const main = join(ROOT, 'dist/cli/main.js');
  const folder = mkdtempSync(join(tmpdir(), 'springsift-growth-'));
  copyFileSync(join(ROOT, 'scenarios/hill-hatch/scenario.yaml'), join(folder, 'scenario.yaml'));
  const run = [main, 'sweep', join(folder, 'scenario.yaml'), '--out', join(folder, 'out'), '--force'];
  const runs = [60, 1000, 3000].map((springs) => {
    writeFileSync(join(folder, 'springs.csv'), catalogue(springs));
    const times = [1, 2, 3].map(() => seconds(() => runNode(run)));
    return { springs, time: median(times), bytes: statSync(join(folder, 'out/report.html')).size };
  });
  const [least] = runs as [(typeof runs)[number]];
  for (const { springs, time, bytes } of runs) {
    say({
      measure: `demo car, a catalogue of ${springs} springs, start to report`,
      seconds: ratio(time),
      over_the_shortest: ratio(time / least.time),
      ms_a_spring_beyond:
        springs === least.springs ? 0 : ratio((1000 * (time - least.time)) / (springs - least.springs)),
      report_kb: Math.round(bytes / 1024),
    });
  }
  rmSync(folder, { recursive: true });
}

async function measureAll(): Promise<void> {
  const hundredMillion = scaled(scenario.axles.front.options, HUNDRED_MILLION);
  const layout = frontLayout(scenario, hundredMillion);
  scalarSpeed(layout);
  kernelAgainstPlain('demo shape at 1e8', layout, 3);
  kernelAgainstPlain('everything passes, 1e8', passingLayout(scenario, hundredMillion), 3);
  await threads('a billion', 3);
  await threads('a billion an axle, whole demo', 3);
  pairing(scenario);
  policyAgainstScalar(scenario);
  startToReport();
  growth();
  await formPage();
}

const scenario = await demo();
/** What is measured alone: `growth`, `form`, `policy`, or a large scenario by its name. */
const asked = process.argv[2] as 'growth' | 'form' | 'policy' | LargeName | undefined;
if (asked === undefined) await measureAll();
else if (asked === 'growth') growth();
else if (asked === 'form') await formPage();
else if (asked === 'policy') policyAgainstScalar(scenario);
else process.stdout.write(`${await sweepSeconds(LARGE[asked](scenario), 1)}\n`);
