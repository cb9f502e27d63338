import { runCheckTables } from './checks.ts';
import { hobbingCheckTables } from './hobbing.cases.ts';

runCheckTables(hobbingCheckTables);
