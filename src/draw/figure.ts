/**
 * What a figure is made from: the plan, the reader's words and the widths of texts. One file a figure; each returns a Drawing, or nothing where the plan has nothing to show.
 */
import type { StorePlan } from '../plan/index.js';
import type { UnitPlan } from '../plan/unit.js';
import type { Speaker } from '../say/speaker.js';
import type { Drawing, TextWidth } from './drawing.js';

export interface FigureContext {
  readonly plan: StorePlan;
  readonly unit?: UnitPlan;
  readonly speaker: Speaker;
  readonly width: TextWidth;
}

export type Figure = (context: FigureContext) => Drawing | undefined;
