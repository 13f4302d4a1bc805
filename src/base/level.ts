/** How grave a hazard is, by ANSI Z535 / ISO 3864: danger will, warning could, caution may hurt; a notice is about things. */
export const LEVELS = ['danger', 'warning', 'caution', 'notice'] as const;
export type Level = (typeof LEVELS)[number];
