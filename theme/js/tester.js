// The copy for a tester: a form that keeps itself on the device and gives a file to send back.

import { keepReport } from "./tester_form.js";

keepReport();
