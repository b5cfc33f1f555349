/**
 * The record of a section of the report. Navigation, heading, print and page follow from the one list in `sections.ts`;
 * template and styles lie beside the section, under its id in camel case.
 */
import type { Result, SetupResult } from '../../result/result.ts';
import { type Answer, answersOf } from '../text/answers.ts';

/** What every section may read. */
export interface Page {
  readonly result: Result;
  /** What is bought for each setup. */
  readonly answers: readonly Answer[];
  /** Setups with something to show. */
  readonly found: readonly SetupResult[];
  readonly isBuild: boolean;
  /** What is bought is a plan over several setups. */
  readonly isPlanned: boolean;
}

interface Shape<View extends object> {
  /** Its address in the page. */
  readonly id: string;
  /** In the navigation. */
  readonly link: string;
  readonly title: string | ((page: Page) => string);
  /** What the template shows; null where the section does not stand. `before`: the sections that stand above. */
  readonly view: (page: Page, before: readonly ShownSection[]) => View | null | Promise<View | null>;
  /** Neighbours with the same word share a box, which print lays out. */
  readonly beside?: 'pictures';
  /** A script shows it. */
  readonly waits?: true;
}

/** Where it prints, and what paper leaves to the screen, which the last page names. */
type Paper<View extends object> =
  | { readonly prints: false; readonly leaves: string }
  | {
      readonly prints: true | ((view: View) => boolean);
      readonly leaves: string | null | ((view: View) => string | null);
    };

export interface Section {
  readonly id: string;
  /** Name of the files of its template and styles. */
  readonly template: string;
  readonly show: (page: Page, before: readonly ShownSection[]) => Promise<ShownSection | null>;
}

export interface ShownSection {
  readonly id: string;
  readonly template: string;
  readonly link: string;
  readonly title: string;
  readonly prints: boolean;
  readonly leaves: string | null;
  readonly beside: string | null;
  readonly waits: boolean;
  readonly view: object;
}

export function section<View extends object>(shape: Shape<View> & Paper<View>): Section {
  const { id, link, title, prints, leaves, beside = null, waits = false } = shape;
  const template = id.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
  return {
    id,
    template,
    async show(page, before) {
      const view = await shape.view(page, before);
      if (view === null) return null;
      return {
        ...{ id, template, link, beside, waits, view },
        title: typeof title === 'string' ? title : title(page),
        prints: typeof prints === 'boolean' ? prints : prints(view),
        leaves: typeof leaves === 'function' ? leaves(view) : leaves,
      };
    },
  };
}

export function pageOf(result: Result): Page {
  const answers = answersOf(result);
  return {
    result,
    answers,
    found: result.setups.filter((setup) => setup.shortlist.length > 0),
    isBuild: result.mode === 'build',
    isPlanned: answers.some(({ plan }) => plan !== null),
  };
}

/** The views of those setups that have one; null where none has. */
export function ofSetups<View>(views: readonly (View | null)[]): { readonly setups: readonly View[] } | null {
  const setups = views.filter((view) => view !== null);
  return setups.length > 0 ? { setups } : null;
}

/** The same for views that are drawn: one after the other, since Vega numbers its definitions from a shared counter. */
export async function ofAnswers<View>(
  { answers }: Page,
  draw: (answer: Answer, isFirst: boolean) => Promise<View | null>,
): Promise<{ readonly setups: readonly View[] } | null> {
  const views = [];
  for (const answer of answers) views.push(await draw(answer, answer === answers[0]));
  return ofSetups(views);
}
