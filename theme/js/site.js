// What every page does.

import { keepChoices } from "./choices.js";

keepChoices();
