// What every page does.

import { keepChoices } from "./choices.js";
import { keepForOffline } from "./offline.js";

keepChoices();
keepForOffline();
