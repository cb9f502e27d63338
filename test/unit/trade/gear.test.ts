import { runCheckTables } from './checks.ts';
import { gearCheckTables } from './gear.cases.ts';

runCheckTables(gearCheckTables);
