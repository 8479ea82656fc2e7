"""The electronic link between table and head: rates, torque, prediction, a pass simulated, a log audited."""
