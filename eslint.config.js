// Lint: types in earnest, and what the rooms above `host` must not touch: Node, the clock, the environment, chance, the reader's locale.
import tseslint from 'typescript-eslint';

const PURE = ['base', 'trade', 'model', 'read', 'science', 'plan', 'say', 'draw', 'compose', 'print', 'fleet'].map(
  (room) => `src/${room}/**/*.ts`,
);

const forbidden = [
  { selector: "MemberExpression[object.name='Date'][property.name='now']", message: 'No clock here: the caller gives the date.' },
  { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: 'No clock here: the caller gives the date.' },
  {
    selector: "MemberExpression[object.name='Math'][property.name='random']",
    message: 'No chance here: the same input gives the same bytes.',
  },
  { selector: "CallExpression[callee.name='Date']", message: 'No clock here: the caller gives the date.' },
  { selector: "MemberExpression[property.name='performance'], Identifier[name='performance']", message: 'No clock here.' },
  {
    selector:
      'MemberExpression[property.name=/^(get(Hours|Minutes|Day|Date|Month|FullYear|TimezoneOffset)|set(Hours|Minutes|Date|Month|FullYear))$/]',
    message: "No time zone of the machine here: the zone is the store's.",
  },
  { selector: "Identifier[name='process']", message: 'No environment here.' },
];
const intl = [
  { selector: "MemberExpression[object.name='Intl']", message: 'Only `say` knows the reader.' },
  {
    selector: 'MemberExpression[property.name=/^(localeCompare|toLocale(String|DateString|TimeString|LowerCase|UpperCase))$/]',
    message: 'Only `say` knows the reader; order by code points.',
  },
];

export default tseslint.config(
  { ignores: ['dist', 'out', 'node_modules', 'schema', '**/*.cjs'] },
  ...tseslint.configs.strictTypeChecked,
  {
    languageOptions: {
      parserOptions: {
        projectService: { allowDefaultProject: ['eslint.config.js', 'vitest.config.ts'] },
        tsconfigRootDir: import.meta.dirname,
      },
    },
    rules: {
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/no-non-null-assertion': 'error',
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true, ignoreVoidOperator: true }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      '@typescript-eslint/no-meaningless-void-operator': 'off',
      // Spreading a string gives its code points, which is what is wanted wherever it stands.
      '@typescript-eslint/no-misused-spread': 'off',
    },
  },
  {
    files: PURE,
    rules: {
      'no-restricted-imports': ['error', { patterns: [{ group: ['node:*'], message: 'Only src/host imports Node.' }] }],
      'no-restricted-syntax': ['error', ...forbidden, ...intl],
    },
  },
  { files: ['src/say/**/*.ts'], rules: { 'no-restricted-syntax': ['error', ...forbidden] } },
  { files: ['**/*.js', '**/*.mjs', 'scripts/**'], ...tseslint.configs.disableTypeChecked },
);
