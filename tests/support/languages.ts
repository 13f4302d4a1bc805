/**
 * Every language that ships: a folder of words/ each.
 */
import { readdirSync } from 'node:fs';

export const LANGUAGES: readonly string[] = readdirSync('words').sort();
