/** The thread that draws: loads at once what it will need, then turns results into pages. */
import { loadVega } from '../report/charts/draw.ts';
import { pagesOf } from './pages.ts';

// Not waited for: the first chart waits for it, and tells what goes wrong with it.
loadVega().catch(() => undefined);

export { sketch } from '../report/html.ts';
export default pagesOf;
