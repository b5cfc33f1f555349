/** The audit as one HTML page that asks for nothing, runs nothing, and prints. */
import type { AuditResult } from '../../domain/audit/types.ts';
import { cautionViews } from '../cautions.ts';
import { mapStrings, visibleInPage } from '../escape.ts';
import { contentPolicy, minified } from '../html.ts';
import { loadTemplates } from '../templates.ts';
import { themeCss } from '../theme.ts';
import { unitView } from './view.ts';

export async function auditHtml(audit: AuditResult): Promise<string> {
  const templates = await loadTemplates();
  const css = minified(`${themeCss()}\n${templates.css}\n${templates.auditCss}`);
  const { scenario, setup, combination, units, inputs, assumptions, tool } = mapStrings(audit, visibleInPage);
  return templates.audit({
    ...{ scenario, setup, combination, tool, inputs, assumptions },
    several: units.length > 1,
    units: units.map(unitView),
    cautions: cautionViews(),
    css,
    policy: contentPolicy(css),
  });
}
