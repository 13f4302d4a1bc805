/**
 * Words of French, Spanish and German sheets, for suggestions only: a person says whether they are meant. Left out is what means one day here and another
 * there, or two things: `di`, `do`, `ma`, `mar`.
 */
const WORDS: Readonly<Record<string, readonly string[]>> = {
  Mo: ['lundi', 'lun', 'lunes', 'montag'],
  Tu: ['mardi', 'martes', 'dienstag'],
  We: ['mercredi', 'mer', 'miércoles', 'mittwoch'],
  Th: ['jeudi', 'jeu', 'jueves', 'donnerstag'],
  Fr: ['vendredi', 'ven', 'viernes', 'freitag'],
  Sa: ['samedi', 'sam', 'sábado', 'samstag'],
  Su: ['dimanche', 'dim', 'domingo', 'sonntag', 'so'],
  off: ['fermé', 'cerrado', 'geschlossen', 'ruhetag'],
  daily: ['täglich'],
  '-': ['à', 'au', 'bis', 'hasta'],
  '': ['uhr'],
};

export const OTHER_LANGUAGES: ReadonlyMap<string, string> = new Map(
  Object.entries(WORDS).flatMap(([ours, words]) => words.map((word) => [word, ours] as const)),
);
