/** Where nothing works: by the length and rate of the spring what would, each place judged by the model. */
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { WorksAt, WouldWork, WouldWorkCell } from '../../result/nothing.ts';
import type { SetupResult } from '../../result/result.ts';
import { drawChart } from '../charts/draw.ts';
import { MARKED_WAYS, WAY_MARKS, wouldWorkMap } from '../charts/wouldWork.ts';
import { ofSetups, section } from '../frame/section.ts';
import { paint } from '../frame/theme.ts';
import { AXLE_TITLES } from '../text/labels.ts';
import { PAGE, withUnits } from '../text/numbers.ts';
import { measure } from '../text/parts.ts';

export const wouldWork = section({
  id: 'would-work',
  link: 'What would work',
  title: 'What would work',
  view: async ({ result }) => {
    // One after the other, since Vega numbers its definitions from a shared counter.
    const views = [];
    for (const setup of result.setups) views.push(await wouldWorkView(setup));
    const shown = ofSetups(views);
    return shown && { legend: LEGEND, ...shown };
  },
  prints: true,
  leaves: null,
});

const LEGEND = MARKED_WAYS.map((way) => WAY_MARKS[way]).map(({ label, sign, fill }) => ({
  label,
  sign,
  fill: paint(fill),
}));

/** Null where the setup has an answer, or no spring could give one. */
export async function wouldWorkView({ name, nothing }: SetupResult) {
  const axles = [];
  for (const axle of AXLE_NAMES) {
    const map = nothing?.axles[axle].would_work;
    if (map) axles.push(await axleView(axle, map));
  }
  return axles.length === 0 ? null : { setup: name, axles };
}

async function axleView(axle: AxleName, map: WouldWork) {
  const length = (value: number) => withUnits(value, 'length', PAGE);
  const found = map.cells.filter((cell) => MARKED_WAYS.some((way) => cell[way] !== null));
  return {
    axle,
    title: AXLE_TITLES[axle],
    drawing: await drawChart(wouldWorkMap(map)),
    tried: String(map.cells.length),
    works: String(found.length),
    bore: length(map.bore_mm),
    trim: length(map.trim_to_mm),
    lower: length(map.mount_lower_mm),
    higher: length(map.mount_higher_mm),
    helpers: map.helpers.map(({ name }) => name).join('; '),
    isBalanced: map.balanced,
    other: axle === 'front' ? 'rear' : 'front',
    /** Empty where every choice of the other parts was tried. */
    thinned:
      map.looked_at < map.combinations
        ? `Of the ${map.combinations} choices of the other parts ${map.looked_at} were tried with each spring, on evenly thinned lists: more may work.`
        : '',
    rows: found.map(rowOf),
  };
}

function rowOf(cell: WouldWorkCell) {
  const said = ({ solid }: WorksAt, text: string) =>
    solid === 'judged' ? text : `${text} if solid by ${withUnits(cell.least_solid_height_mm, 'length', PAGE)}`;
  const { as_listed, trim, helper, mount } = cell;
  return {
    length: measure(cell.free_length_mm, 'length'),
    rate: measure(cell.rate_n_per_mm, 'rate'),
    solid: measure(cell.solid_height_mm, 'length'),
    ways: [
      ...(as_listed ? [said(as_listed, 'parts as listed')] : []),
      ...(trim ? [said(trim, `sleeve trim ${withUnits(trim.trim_mm, 'length', PAGE)}`)] : []),
      ...(helper ? [said(helper, helper.name.replace(/ long,.*/, ''))] : []),
      ...(mount ? [said(mount, `mount raise ${withUnits(mount.raise_mm, 'length', PAGE)}`)] : []),
    ].join('; '),
  };
}
