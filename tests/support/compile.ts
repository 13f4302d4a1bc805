/** Compiles the program once before the tests that run it as people do. Type errors are the compile step's to tell. */
import { spawnSync } from 'node:child_process';

export default (): void => {
  spawnSync('npx', ['tsc', '-p', 'tsconfig.build.json', '--noEmitOnError', 'false'], { stdio: 'ignore' });
};
