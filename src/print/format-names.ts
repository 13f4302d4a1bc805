/**
 * Names of the formats, apart from what writes them, which the command line loads only for a build.
 */
export const formatNames = ['pdf', 'html'] as const;
export type FormatName = (typeof formatNames)[number];
