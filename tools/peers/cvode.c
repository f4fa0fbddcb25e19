/* Work-precision points of CVODE (SUNDIALS 6 or later), BDF with a dense
 * linear solver and analytic Jacobian, on the four stiff problems of
 * numeric/problems. Prints CSV rows: solver,problem,rtol,atol,error,seconds,
 * steps,rates,jacobians. error is the largest relative error of a component at
 * the end, seconds the processor time of the best of seven rounds, apart in time,
 * so that a busy machine counts for nobody. Memory is kept between runs. */
#include <cvode/cvode.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sundials/sundials_config.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <time.h>

typedef struct {
  const char *name;
  int n;
  double y0[8], end, ref[8], scale; /* scale: atol per rtol */
  CVRhsFn f;
  CVLsJacFn jac;
} problem;

static int rober(realtype t, N_Vector yv, N_Vector dv, void *u) {
  const double *y = N_VGetArrayPointer(yv);
  double *d = N_VGetArrayPointer(dv);
  double a = 0.04 * y[0], b = 1e4 * y[1] * y[2], c = 3e7 * y[1] * y[1];
  d[0] = -a + b;
  d[1] = a - b - c;
  d[2] = c;
  return 0;
}
static int rober_jac(realtype t, N_Vector yv, N_Vector fy, SUNMatrix m, void *u, N_Vector a, N_Vector b, N_Vector c) {
  const double *y = N_VGetArrayPointer(yv);
  realtype **j = SM_COLS_D(m); /* j[col][row] */
  j[0][0] = -0.04;
  j[1][0] = 1e4 * y[2];
  j[2][0] = 1e4 * y[1];
  j[0][1] = 0.04;
  j[1][1] = -1e4 * y[2] - 6e7 * y[1];
  j[2][1] = -1e4 * y[1];
  j[1][2] = 6e7 * y[1];
  return 0;
}

static int hires(realtype t, N_Vector yv, N_Vector dv, void *u) {
  const double *y = N_VGetArrayPointer(yv);
  double *d = N_VGetArrayPointer(dv);
  double r = 280 * y[5] * y[7];
  d[0] = -1.71 * y[0] + 0.43 * y[1] + 8.32 * y[2] + 0.0007;
  d[1] = 1.71 * y[0] - 8.75 * y[1];
  d[2] = -10.03 * y[2] + 0.43 * y[3] + 0.035 * y[4];
  d[3] = 8.32 * y[1] + 1.71 * y[2] - 1.12 * y[3];
  d[4] = -1.745 * y[4] + 0.43 * (y[5] + y[6]);
  d[5] = -r + 0.69 * y[3] + 1.71 * y[4] - 0.43 * y[5] + 0.69 * y[6];
  d[6] = r - 1.81 * y[6];
  d[7] = -d[6];
  return 0;
}
static int hires_jac(realtype t, N_Vector yv, N_Vector fy, SUNMatrix m, void *u, N_Vector va, N_Vector vb, N_Vector vc) {
  const double *y = N_VGetArrayPointer(yv);
  realtype **j = SM_COLS_D(m);
  double a = 280 * y[7], b = 280 * y[5];
  j[0][0] = -1.71, j[1][0] = 0.43, j[2][0] = 8.32;
  j[0][1] = 1.71, j[1][1] = -8.75;
  j[2][2] = -10.03, j[3][2] = 0.43, j[4][2] = 0.035;
  j[1][3] = 8.32, j[2][3] = 1.71, j[3][3] = -1.12;
  j[4][4] = -1.745, j[5][4] = 0.43, j[6][4] = 0.43;
  j[3][5] = 0.69, j[4][5] = 1.71, j[5][5] = -a - 0.43, j[6][5] = 0.69, j[7][5] = -b;
  j[5][6] = a, j[6][6] = -1.81, j[7][6] = b;
  j[5][7] = -a, j[6][7] = 1.81, j[7][7] = -b;
  return 0;
}

static int orego(realtype t, N_Vector yv, N_Vector dv, void *u) {
  const double *y = N_VGetArrayPointer(yv);
  double *d = N_VGetArrayPointer(dv);
  d[0] = 77.27 * (y[1] + y[0] * (1 - 8.375e-6 * y[0] - y[1]));
  d[1] = (y[2] - (1 + y[0]) * y[1]) / 77.27;
  d[2] = 0.161 * (y[0] - y[2]);
  return 0;
}
static int orego_jac(realtype t, N_Vector yv, N_Vector fy, SUNMatrix m, void *u, N_Vector a, N_Vector b, N_Vector c) {
  const double *y = N_VGetArrayPointer(yv);
  realtype **j = SM_COLS_D(m);
  j[0][0] = 77.27 * (1 - 2 * 8.375e-6 * y[0] - y[1]), j[1][0] = 77.27 * (1 - y[0]);
  j[0][1] = -y[1] / 77.27, j[1][1] = -(1 + y[0]) / 77.27, j[2][1] = 1 / 77.27;
  j[0][2] = 0.161, j[2][2] = -0.161;
  return 0;
}

static int vdpol(realtype t, N_Vector yv, N_Vector dv, void *u) {
  const double *y = N_VGetArrayPointer(yv);
  double *d = N_VGetArrayPointer(dv);
  d[0] = y[1];
  d[1] = 1000 * (1 - y[0] * y[0]) * y[1] - y[0];
  return 0;
}
static int vdpol_jac(realtype t, N_Vector yv, N_Vector fy, SUNMatrix m, void *u, N_Vector a, N_Vector b, N_Vector c) {
  const double *y = N_VGetArrayPointer(yv);
  realtype **j = SM_COLS_D(m);
  j[1][0] = 1;
  j[0][1] = -2000 * y[0] * y[1] - 1, j[1][1] = 1000 * (1 - y[0] * y[0]);
  return 0;
}

static problem problems[] = {
    {"ROBER", 3, {1, 0, 0}, 1e11, {0.2083340149701255e-7, 0.8333360770334713e-13, 0.9999999791665050}, 1e-14, rober, rober_jac},
    {"HIRES", 8, {1, 0, 0, 0, 0, 0, 0, 0.0057}, 321.8122,
     {0.7371312573325668e-3, 0.1442485726316185e-3, 0.5888729740967575e-4, 0.1175651343283149e-2, 0.2386356198831331e-2,
      0.6238968252742796e-2, 0.2849998395185769e-2, 0.2850001604814231e-2}, 1e-4, hires, hires_jac},
    {"OREGO", 3, {1, 2, 3}, 360, {1.000814870318523, 1228.178521549917, 132.0554942846706}, 1e-2, orego, orego_jac},
    {"VDPOL", 2, {2, 0}, 2000, {1.706167732170469, -0.8928097010248125e-3}, 1e-4, vdpol, vdpol_jac},
};

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return t.tv_sec + 1e-9 * t.tv_nsec;
}

/* A run at one tolerance; seconds is the best over the rounds. */
typedef struct {
  double rtol, atol, err, seconds;
  long steps, rates, jacs;
  int failed;
} run;

enum { ROUNDS = 7, FIRST = 4, LAST = 26, RUNS = 2 * (LAST - FIRST + 1) };

static void solve(problem *q, SUNContext ctx, run *runs) {
  N_Vector y = N_VNew_Serial(q->n, ctx);
  double *v = N_VGetArrayPointer(y);
  memcpy(v, q->y0, q->n * sizeof *v);
  void *mem = CVodeCreate(CV_BDF, ctx);
  CVodeSetErrFile(mem, NULL);
  CVodeInit(mem, q->f, 0, y);
  SUNMatrix m = SUNDenseMatrix(q->n, q->n, ctx);
  SUNLinearSolver ls = SUNLinSol_Dense(y, m, ctx);
  CVodeSStolerances(mem, 1e-4, 1e-8);
  CVodeSetLinearSolver(mem, ls, m);
  CVodeSetJacFn(mem, q->jac);
  CVodeSetMaxNumSteps(mem, 2000000);
  for (int k = 0; k < RUNS; k++) {
    run *r = &runs[k];
    r->rtol = pow(10, -(FIRST + k / 2) / 2.0); /* 1e-2 to 1e-13 in half decades */
    r->atol = r->rtol * q->scale * (k % 2 ? 1e-2 : 1);
    int count = 0, flag;
    double t0 = now(), spent;
    do {
      realtype t;
      memcpy(v, q->y0, q->n * sizeof *v);
      CVodeReInit(mem, 0, y);
      CVodeSStolerances(mem, r->rtol, r->atol);
      CVodeSetStopTime(mem, q->end);
      flag = CVode(mem, q->end, y, &t, CV_NORMAL);
      count++;
      spent = now() - t0;
    } while (flag >= 0 && spent < 0.004);
    r->failed = flag < 0;
    if (r->seconds == 0 || spent / count < r->seconds) r->seconds = spent / count;
    r->err = 0;
    for (int i = 0; i < q->n; i++) {
      double e = fabs(v[i] / q->ref[i] - 1);
      if (!(e <= r->err)) r->err = e;
    }
    CVodeGetNumSteps(mem, &r->steps);
    CVodeGetNumRhsEvals(mem, &r->rates);
    CVodeGetNumJacEvals(mem, &r->jacs);
  }
  CVodeFree(&mem);
  SUNLinSolFree(ls);
  SUNMatDestroy(m);
  N_VDestroy(y);
}

int main(void) {
  enum { N = sizeof problems / sizeof *problems };
  static run runs[N][RUNS];
  SUNContext ctx;
  if (SUNContext_Create(NULL, &ctx)) return 1;
  for (int round = 0; round < ROUNDS; round++)
    for (int p = 0; p < N; p++) solve(&problems[p], ctx, runs[p]);
  SUNContext_Free(&ctx);
  printf("# CVODE of SUNDIALS %s\n", SUNDIALS_VERSION);
  for (int p = 0; p < N; p++)
    for (int k = 0; k < RUNS; k++) {
      run *r = &runs[p][k];
      if (!r->failed)
        printf("CVODE,%s,%.3e,%.3e,%.3e,%.4e,%ld,%ld,%ld\n", problems[p].name, r->rtol, r->atol, r->err, r->seconds, r->steps, r->rates, r->jacs);
    }
  return 0;
}
