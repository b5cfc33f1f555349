/** The thread that draws: loads at once what it will need, then turns results into their reports. */
import { loadVega } from '../report/charts/draw.ts';
import { reportHtml } from '../report/html.ts';

export { sketch } from '../report/html.ts';

// The first chart waits for it, and throws what goes wrong with it.
loadVega().catch(() => undefined);
export default reportHtml;
