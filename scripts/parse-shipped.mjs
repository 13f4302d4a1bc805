// Parses the words, tables and papers that ship with nightrail into dist/parsed.json, so that a run need not. Run it after compiling.
import { writeParsed } from '../dist/host/parsed.js';

writeParsed();
